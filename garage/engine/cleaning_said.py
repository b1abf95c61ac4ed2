"""Whether somebody's own words name no more than cleaning: nice to have. Common practice, no source."""

from functools import lru_cache
from itertools import product

from garage.engine.names_said import NameTable
from garage.engine.systems_said import fault_said, systems_said

_HOW = """
    clean, clean out, clean up, wash, wash down, wipe down, hoover, hoover out, vacuum, vacuum out, tidy, tidy up, tidy
    out, sweep, sweep out, empty, valet, polish, wax, shampoo
"""
_WHAT = """
    boot, trunk, car, cabin, cockpit, inside, interior, outside, body, bodywork, paintwork, van, trailer, garage,
    workshop, shop, bonnet, window, windscreen, mirror, carpet, footwell, door, headlight,
    headlamp
"""
_CLEANS = NameTable(
    {"cleans": ",".join(f"{how} {what}" for how, what in product(_HOW.split(","), _WHAT.split(",")))}
    | {"cleans ": "valet, valeting, wash and polish, cut and polish, wash it, polish it"}
)
SKIN = frozenset({"body", "glass", "paint"})
"""The systems (slugs) that cleaning touches, the first of them where its words name none."""


@lru_cache(maxsize=4096)
def only_cleans(text: str) -> bool:
    """Whether it names cleaning, no system that it would open, and nothing that is wrong."""
    return bool(_CLEANS.said(text)) and SKIN.issuperset(systems_said(text)) and not fault_said(text)

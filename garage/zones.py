"""Time zones as somebody chooses one: each place once, by its newest name, and where this computer stands."""

import re
from functools import cache
from importlib.resources import files
from pathlib import Path

LOCAL = Path("/etc/localtime")
_IN_PATH = re.compile(r"zoneinfo/(?:posix/|right/)?([A-Z].*)$")


@cache
def places() -> tuple[str, ...]:
    """All places of the IANA database in order, none of its older names: those that its table of countries lists."""
    lines = (files("tzdata") / "zoneinfo" / "zone.tab").read_text(encoding="utf-8").splitlines()
    return tuple(sorted(line.split("\t")[2] for line in lines if line and not line.startswith("#")))


@cache
def older_names() -> dict[str, tuple[str, ...]]:
    """By place what it was called before, which a browser may still call it: `Asia/Calcutta` of `Asia/Kolkata`."""
    lines = (files("tzdata") / "zoneinfo" / "tzdata.zi").read_text(encoding="utf-8").splitlines()
    links = [line.split()[1:3] for line in lines if line.startswith("L ")]
    known = frozenset(places())
    return {
        place: tuple(sorted(name for target, name in links if target == place and name not in known)) for place in known
    }


def here() -> str:
    """The zone of the computer that this runs on, as its system says; UTC where that says none of `places`."""
    try:
        said = _IN_PATH.search(str(LOCAL.resolve()))
    except OSError:
        return "UTC"
    name = said[1] if said else "UTC"
    return next((place for place in places() if name in (place, *older_names()[place])), "UTC")

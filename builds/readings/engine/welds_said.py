"""How somebody's own words leave a weld: tacked, or welded out. Common practice, no source."""

import re
from collections.abc import Collection

from builds.work.engine.welds import Weld
from garage.engine.names_said import plain

# What holds a wheel, a belt or a person: only there a tack is a danger.
STRUCTURAL = frozenset({"part_weld", "chassis_weld"})
_TACK = re.compile(
    r"\btack(?:s|ed|ing)?\b(?! (?:cloth|cloths|rag|rags|coat|strip|hammer))(?: welds?| welded| welding)?"
)
_WELD = re.compile(r"\b(?<!spot )(?:weld\w*|seam\w*|stitch\w*|mig|tig|braz\w*)\b")
# Welded out in the same work: `tack and weld`, `tack, then weld`, `tack up & weld`.
_BOTH = re.compile(
    r"\btack\w*(?: \w+){0,6}? (?:and|then) (?:\w+ ){0,3}?(?:fully |seam |stitch )?(?:weld|mig|tig|braz)\w*"
)
_LATER = re.compile(
    r"\b(?:later|next|tomorrow|another (?:day|time)|until|till|before|ready (?:to|for)|to be weld\w*|for welding|"
    r"monday|tuesday|wednesday|thursday|friday|saturday|sunday|after|only|just|temporar\w*|for now)\b"
)


def weld_said(text: str, kinds: Collection[str]) -> str:
    """The state (of `Weld`) in which work of these words and kinds (slugs) leaves a weld; empty where it makes none.

    Tacked is not welded: where words say both, it is welded out only if they say that of this work.
    """
    if STRUCTURAL.isdisjoint(kinds):
        return ""
    words = plain(text.replace("&", " and ").replace("+", " and "))
    tack = _TACK.search(words)
    weld = _WELD.search(_TACK.sub(lambda tacked: " " * len(tacked[0]), words))
    if tack and not (weld and not _LATER.search(words) and (weld.start() < tack.start() or _BOTH.search(words))):
        return Weld.TACKED
    return Weld.WELDED if weld else ""

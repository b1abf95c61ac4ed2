"""Which end and which side of the car somebody's words name: front or rear, left or right."""

import re

AXES = (frozenset({"front", "rear"}), frozenset({"left", "right"}))
SHORT = {"l": "left", "r": "right", "f": "front"}
_NAMED = re.compile(
    r"\b(?:(?P<end>front|rear)|(?P<side>left|right)(?!\s+(?:size|seat|way|class|kind|over|open|out|in|to|hand thread))"
    r"|(?P<corner>[lr][fr]|f[lr]))\b",
    re.IGNORECASE,
)


def corner_said(words: str) -> frozenset[str]:
    """Those of front, rear, left and right that are named; `LR` is left and rear. Empty where none is."""
    said: set[str] = set()
    for named in _NAMED.finditer(words):
        corner = (named["corner"] or "").lower()
        if not corner:
            said.add(named[0].lower())
        elif corner[0] == "f":
            said |= {"front", SHORT[corner[1]]}
        else:
            said |= {SHORT[corner[0]], "front" if corner[1] == "f" else "rear"}
    return frozenset(said)


def are_apart(one: frozenset[str], other: frozenset[str]) -> bool:
    """Whether one names only the front and the other only the rear, or left and right."""
    return any(one & axis and other & axis and not one & other & axis for axis in AXES)

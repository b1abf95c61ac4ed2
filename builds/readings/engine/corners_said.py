"""Which end and which side of the car somebody's words name: front or rear, left or right, near or off."""

import re
from collections.abc import Iterable, Iterator

# Nearside and driver's side are left in one country and right in the next: each is only known to be the other of two.
AXES = (
    frozenset({"front", "rear"}),
    frozenset({"left", "right"}),
    frozenset({"nearside", "offside"}),
    frozenset({"driver's side", "passenger side"}),
)
_SIDES = frozenset[str]().union(*AXES[1:])
_SHORT = {"l": "left", "r": "right", "f": "front", "n": "nearside", "o": "offside", "d": "driver's side"}
_CORNERS = {
    short: (end, side)
    for end in ("front", "rear")
    for side in ("left", "right")
    for short in (end[0] + side[0], side[0] + end[0])
}
_NAMED = re.compile(
    r"\b(?:(?P<end>front|rear)"
    r"|(?P<side>left|right)(?!\s+(?:size|seat|way|class|kind|over|open|out|in|to|hand thread))"
    r"|(?P<near>near|off)[\s-]?side"
    r"|(?P<whose>driver|passenger)(?:['’]?s)?[\s-]side"
    r"|(?P<corner>[lr][fr]|f[lr]|rl)"
    # N/S, o/s/r, NSF; without a stroke only beside an end, since OS is a word of its own.
    r"|(?P<off>[no])/s(?:/?(?P<off_end>[fr]))?"
    r"|(?P<off_tight>[no])s(?:(?P<off_tight_end>[fr])|(?=\s+(?:front|rear)))"
    r"|(?P<hand>[lr])/?h(?:/?(?P<hand_end>[fr]))?)\b",
    re.IGNORECASE,
)


def corner_said(words: str) -> frozenset[str]:
    """Those of front, rear and the sides that are named; `LR` is left and rear. Empty where none is."""
    return frozenset(name for named in _NAMED.finditer(words) for name in _names(named))


def _names(named: re.Match[str]) -> Iterator[str]:
    groups = {group: text.lower() for group, text in named.groupdict().items() if text}
    for group, text in groups.items():
        if group in ("end", "side"):
            yield text
        elif group == "near":
            yield f"{text}side"
        elif group == "whose":
            yield "passenger side" if text == "passenger" else "driver's side"
        elif group == "corner":
            yield from _CORNERS[text]
        elif group.endswith("_end"):
            yield "front" if text == "f" else "rear"
        else:
            yield _SHORT[text]


def are_apart(one: frozenset[str], other: frozenset[str]) -> bool:
    """Whether one names only the front and the other only the rear, or left and right."""
    return any(one & axis and other & axis and not one & other & axis for axis in AXES)


def is_one_corner(said: frozenset[str]) -> bool:
    """Whether an end and a side are named, and no two of either."""
    return len(said & AXES[0]) == 1 and all(len(said & axis) <= 1 for axis in AXES[1:]) and bool(said & _SIDES)


def called(said: Iterable[str], car: str) -> str:
    """`the rear left corner of Wren`, of words that name one and the name of the car."""
    named = frozenset(said)
    return " ".join(["the", *sorted(named & AXES[0]), *sorted(named & _SIDES), "corner of", car])

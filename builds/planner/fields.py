"""Readings of single values: each returns the value, normalised, or refuses it in one sentence."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

BOUND = 100_000
"""No slot, wait, capacity or amount of work lies further out than this (2.8 years of quarters)."""

MOST_UNITS = 1_000
"""No station has more units, no job uses more, and no job wants more people."""

LONGEST_NAME = 60

Windows = tuple[tuple[int, int], ...]


class ProblemError(ValueError):
    """The problem cannot be planned as it stands; the one sentence says what to put right."""


def shown(value: object) -> str:
    """A value as a sentence may quote it: short, and on one line."""
    words = " ".join(str(value)[: 4 * LONGEST_NAME].split()) or "''"
    return words if len(words) <= LONGEST_NAME else words[: LONGEST_NAME - 1] + "…"


def quoted(value: object) -> str:
    """A name that is not a proper one, as a sentence holds it: “Fit the fan”."""
    return f"“{shown(value)}”"


def whole(value: object, what: str, low: int = -BOUND, high: int = BOUND) -> int:
    """An integer in [low, high]; anything else, true and false included, raises ProblemError."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise ProblemError(f"{what} must be a whole number.")
    if not low <= value <= high:
        raise ProblemError(f"{what} must lie between {low} and {high}.")
    return value


def weight(value: object, what: str) -> float:
    """A finite number in [0, BOUND]; an integer stays one; else raises ProblemError."""
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise ProblemError(f"{what} must be a number.")
    if not (math.isfinite(value) and 0 <= value <= BOUND):
        raise ProblemError(f"{what} must lie between 0 and {BOUND}.")
    return value


def figures(value: object, what: str) -> tuple[float, float, float]:
    """Three finite numbers in [0, BOUND] that do not fall; anything else raises ProblemError."""
    if not isinstance(value, (list, tuple)) or len(value) != 3:
        raise ProblemError(f"{what} must be three numbers: low, likely and high.")
    low, likely, high = (weight(figure, what) for figure in value)
    if not low <= likely <= high:
        raise ProblemError(f"{what} must run from low over likely to high.")
    return low, likely, high


def flag(value: object, what: str) -> bool:
    """True or false and nothing that merely looks like it; else raises ProblemError."""
    if not isinstance(value, bool):
        raise ProblemError(f"{what} must be true or false.")
    return value


def text(value: object, what: str) -> str:
    """Words that are not empty; else raises ProblemError."""
    if not isinstance(value, str) or not value.strip():
        raise ProblemError(f"{what} must be a text that is not empty.")
    return value


def phrase(value: object, what: str) -> str:
    """Words that stand in a sentence as they are, on one line; else raises ProblemError."""
    return " ".join(text(value, what).split())


def texts(value: object, what: str) -> tuple[str, ...]:
    """A list of texts, none of them twice; else raises ProblemError."""
    if not isinstance(value, (list, tuple)):
        raise ProblemError(f"{what} must be a list.")
    words = tuple(text(item, f"Each entry of {what[0].lower()}{what[1:]}") for item in value)
    if len(set(words)) < len(words):
        raise ProblemError(f"{what} must not name anything twice.")
    return words


def amounts(value: object, what: str) -> dict[str, int]:
    """A table from text to a whole number of zero or more; else raises ProblemError."""
    if not isinstance(value, Mapping):
        raise ProblemError(f"{what} must be a table of names and numbers.")
    return {text(key, what): whole(units, what, 0, MOST_UNITS) for key, units in value.items()}


def windows(value: object, what: str) -> Windows | None:
    """Half-open [from, to) slots, sorted and joined where they touch; None is always open.

    Refuses windows that are empty, run backwards or overlap, with ProblemError.
    """
    if value is None:
        return None
    if not isinstance(value, (list, tuple)):
        raise ProblemError(f"{what} must be a list of windows, or null for always.")
    pairs = []
    for pair in value:
        if not isinstance(pair, (list, tuple)) or len(pair) != 2:
            raise ProblemError(f"{what} must hold pairs of slots, from and to.")
        begin, end = (whole(edge, f"{what}: the edge of a window") for edge in pair)
        if begin >= end:
            raise ProblemError(f"{what}: the window from {begin} to {end} does not run forwards.")
        pairs.append((begin, end))
    joined: list[tuple[int, int]] = []
    for begin, end in sorted(pairs):
        if joined and begin < joined[-1][1]:
            raise ProblemError(f"{what}: two windows overlap at slot {begin}.")
        if joined and begin == joined[-1][1]:
            joined[-1] = (joined[-1][0], end)
        else:
            joined.append((begin, end))
    return tuple(joined)


def put(record: object, **values: Any) -> None:
    """Set what was read on a frozen record while it is made."""
    for name, value in values.items():
        object.__setattr__(record, name, value)


def named(record: Any, kind: str, label: str) -> str:
    """Read the id and the optional name of a record and return how sentences call it."""
    text(record.id, f"The id of a {kind}")
    words = getattr(record, label)
    if words is not None:
        text(words, f"The {label} of {kind} {shown(record.id)}")
    return f"{kind.capitalize()} {shown(words or record.id)}"

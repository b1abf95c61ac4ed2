"""How bad a reason is, and what a reason is."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import IntEnum


class Severity(IntEnum):
    """How bad a reason is; up to FAULT the car is do-not-drive.

    NOT_KNOWN stands apart: nobody can say that it is bad, nor that it is good.
    """

    LOOSE = 0
    STRIPPED = 1
    HOLD_POINT = 2
    UNSIGNED = 3
    FAULT = 4
    SAFETY = 5
    GEAR = 6
    READING = 7
    PART = 8
    FAILED = 9
    NEEDED = 10
    CHECK = 11
    HOLD_AHEAD = 12
    STANDING = 13
    NOT_KNOWN = 14


# Of equally bad ones first what stops or turns the car, then what burns, what carries it, and what holds the driver
# when the rest has failed. Our own choice, no source.
_FIRST = ("brakes", "steering")
_THEN = ("fuel", "wheels", "suspension", "cage", "fire", "restraint", "seat")
_BY_SYSTEM = {system: number for number, system in enumerate((*_FIRST, "", *_THEN))}
LAST = len(_BY_SYSTEM)


def how_soon(systems: Iterable[str], *, safety: bool) -> int:
    """Where what touches these systems (slugs) stands among equally bad ones; safety work on none of them, such as on
    a throttle, right behind what stops and turns the car.
    """
    known = [_BY_SYSTEM[system] for system in systems if system in _BY_SYSTEM]
    return min(known, default=_BY_SYSTEM[""] if safety else LAST)


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing in the way, what would clear it, and the row it is about; `soon` its place among equally bad ones."""

    severity: Severity
    sentence: str
    clears: str
    kind: str
    ref: int
    soon: int = field(default=LAST, compare=False)

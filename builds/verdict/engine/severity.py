"""How bad a reason is, and what a reason is."""

from dataclasses import dataclass
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


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing in the way, what would clear it, and the row it is about."""

    severity: Severity
    sentence: str
    clears: str
    kind: str
    ref: int

"""How bad a reason is, and what a reason is."""

from dataclasses import dataclass
from enum import IntEnum


class Severity(IntEnum):
    """How bad a reason is; up to UNSIGNED the car is do-not-drive.

    NOT_KNOWN stands apart: nobody can say that it is bad, nor that it is good.
    """

    LOOSE = 0
    STRIPPED = 1
    HOLD_POINT = 2
    UNSIGNED = 3
    SAFETY = 4
    GEAR = 5
    READING = 6
    PART = 7
    FAILED = 8
    NEEDED = 9
    CHECK = 10
    HOLD_AHEAD = 11
    STANDING = 12
    NOT_KNOWN = 13


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing in the way, what would clear it, and the row it is about."""

    severity: Severity
    sentence: str
    clears: str
    kind: str
    ref: int

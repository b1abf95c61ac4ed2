"""The states of a line on a pack list: a table of steps, and what a log of them comes to."""

from collections.abc import Iterable
from datetime import datetime
from enum import StrEnum
from typing import NamedTuple


class PackState(StrEnum):
    OPEN = "open"
    PACKED = "packed"
    LEFT = "left"


LABELS: dict[PackState, str] = {
    PackState.OPEN: "not packed",
    PackState.PACKED: "packed",
    PackState.LEFT: "stays here",
}


class Step(NamedTuple):
    """From any of `before` to `after`; `verb` names it in a refusal."""

    before: tuple[PackState, ...]
    after: PackState
    verb: str


STEPS: dict[str, Step] = {
    "pack": Step((PackState.OPEN, PackState.LEFT), PackState.PACKED, "pack"),
    "unpack": Step((PackState.PACKED,), PackState.OPEN, "unpack"),
    "leave": Step((PackState.OPEN, PackState.PACKED), PackState.LEFT, "leave behind"),
    "want": Step((PackState.LEFT,), PackState.OPEN, "want back"),
}


class PackTap(NamedTuple):
    """One thing done to a line, when and under which key."""

    at: datetime
    key: str
    step: str


def refusal(step: str, state: str) -> str | None:
    """Why a line in this state cannot take this step, or None when it can."""
    row = STEPS[step]
    if state in row.before:
        return None
    wanted = " or ".join(LABELS[each] for each in row.before)
    return f"To {row.verb} it, it must be {wanted}; it is {LABELS[PackState(state)]}."


def deciding(rows: Iterable[PackTap]) -> PackTap | None:
    """The last thing that a hand did, whatever order the news came in; None while none did."""
    return max(rows, default=None)

"""The states of a line on a pack list: a table of steps, and what a log of them comes to."""

from collections.abc import Iterable
from datetime import datetime
from enum import StrEnum
from typing import NamedTuple

from garage.engine.state_table import StateTable, Step


class PackState(StrEnum):
    OPEN = "open"
    PACKED = "packed"
    LEFT = "left"


LABELS: dict[PackState, str] = {
    PackState.OPEN: "not packed",
    PackState.PACKED: "packed",
    PackState.LEFT: "stays here",
}


PACK_STATES = StateTable(
    labels=LABELS,
    steps={
        "pack": Step((PackState.OPEN, PackState.LEFT), PackState.PACKED, "pack"),
        "unpack": Step((PackState.PACKED,), PackState.OPEN, "unpack"),
        "leave": Step((PackState.OPEN, PackState.PACKED), PackState.LEFT, "leave behind"),
        "want": Step((PackState.LEFT,), PackState.OPEN, "want back"),
    },
    sentence="To {verb} it, it must be {wanted}; it is {state}.",
)


class PackTap(NamedTuple):
    """One thing done to a line, when and under which key."""

    at: datetime
    key: str
    step: str


def deciding(rows: Iterable[PackTap]) -> PackTap | None:
    """The last thing that a hand did, whatever order the news came in; None while none did."""
    return max(rows, default=None)

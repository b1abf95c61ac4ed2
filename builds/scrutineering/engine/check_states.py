"""The states of a scrutineering item: a table of steps, and what a log of them comes to."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from garage.engine.state_table import StateTable, Step


class CheckState(StrEnum):
    OPEN = "open"
    TICKED = "ticked"
    FAILED = "failed"
    LEFT_OUT = "left_out"


LABELS: dict[CheckState, str] = {
    CheckState.OPEN: "open",
    CheckState.TICKED: "ticked",
    CheckState.FAILED: "failed",
    CheckState.LEFT_OUT: "does not apply",
}


_PASSING = (CheckState.OPEN, CheckState.TICKED, CheckState.LEFT_OUT)
# An undo has no row: it takes back the last step, whatever that was.
CHECK_STATES = StateTable(
    labels=LABELS,
    steps={
        "tick": Step(_PASSING, CheckState.TICKED, "tick"),
        "fail": Step((*_PASSING, CheckState.FAILED), CheckState.FAILED, "fail"),
        "leave_out": Step(_PASSING, CheckState.LEFT_OUT, "leave out"),
        "mend": Step((CheckState.FAILED,), CheckState.TICKED, "tick as mended"),
    },
    sentence="To {verb} an item it must have {wanted}; this one is {state}.",
    stuck={CheckState.FAILED: "A fail stands: finish its job, then tick it as mended, or undo the fail."},
)
UNDO = "undo"


@dataclass(frozen=True, slots=True)
class LogRow:
    """One line of an item's log; `key` is unique, `answers` the key of the line it is about.

    An undo takes back the line it answers; a mend answers the fail that it mended.
    """

    key: str
    step: str
    at: datetime
    answers: str = ""


def standing(rows: Iterable[LogRow]) -> tuple[LogRow, ...]:
    """The lines that were not taken back, by the time of the hand that made them."""
    told = tuple(rows)
    undone = {line.answers for line in told if line.step == UNDO}
    kept = (line for line in told if line.step != UNDO and line.key not in undone)
    return tuple(sorted(kept, key=lambda line: (line.at, line.key)))


def unmended(rows: Iterable[LogRow]) -> tuple[LogRow, ...]:
    """The fails that stand and that no mend answers, earliest first."""
    kept = standing(rows)
    mended = {line.answers for line in kept if line.step == "mend"}
    return tuple(line for line in kept if line.step == "fail" and line.key not in mended)


def deciding(rows: Iterable[LogRow]) -> LogRow | None:
    """The line that an item's state comes from, and an undo takes back; None while none stands.

    A fail beats a pass, whenever either was made and in whatever order they arrive: it is the last
    fail that nobody mended, else the last line that is no fail. So phones that were without signal
    come to the same end as one that was not.
    """
    told = tuple(rows)
    if fails := unmended(told):
        return fails[-1]
    passes = [line for line in standing(told) if line.step != "fail"]
    return passes[-1] if passes else None


def state_after(deciding_row: LogRow | None) -> CheckState:
    """What an item's log comes to, by the line that decides it."""
    return CHECK_STATES.after(deciding_row.step) if deciding_row else CheckState.OPEN

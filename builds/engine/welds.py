"""Welded parts between the tack and the inspection, as the steps of a recipe leave them."""

from collections.abc import Iterable
from enum import StrEnum
from typing import NamedTuple


class Weld(StrEnum):
    TACKED = "tacked"
    FIT_CHECKED = "checked"
    WELDED = "welded"
    INSPECTED = "inspected"


LABELS: dict[Weld, str] = {
    Weld.TACKED: "tacked when it is done",
    Weld.FIT_CHECKED: "checked for fit",
    Weld.WELDED: "welded out",
    Weld.INSPECTED: "inspected, with a crack test",
}
ORDER = tuple(Weld)


class WeldJob(NamedTuple):
    """A job whose end leaves a weld in a state; `over` when it is done, or signed."""

    id: int
    title: str
    weld: str
    over: bool


def unfinished_weld(jobs: Iterable[WeldJob]) -> tuple[str, WeldJob] | None:
    """What the jobs of one weld leave: ("tacked" or "uninspected", the job that is next).

    None when nothing has begun, or when it is inspected. Tacked is not welded, welded is not
    inspected: a step that is over counts only as far as the ones before it are over too. Jobs come
    in any order; a weld may lack steps. Source: common practice, no source.
    """
    rows = sorted(jobs, key=lambda row: ORDER.index(Weld(row.weld)))
    if not any(row.over for row in rows):
        return None
    waiting = [row for row in rows if not row.over]
    if not waiting:
        return None
    first = Weld(waiting[0].weld)
    return ("uninspected" if first == Weld.INSPECTED else "tacked"), waiting[0]

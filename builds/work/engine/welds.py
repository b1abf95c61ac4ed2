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
    Weld.TACKED: "tacked, which is not driveable",
    Weld.FIT_CHECKED: "tacked and checked for fit, which is not driveable",
    Weld.WELDED: "welded out, and not inspected",
    Weld.INSPECTED: "inspected, with a crack test",
}
ORDER = tuple(Weld)


class WeldJob(NamedTuple):
    """A job whose end leaves a weld in a state; `over` when it is done, or signed."""

    id: int
    title: str
    weld: str
    over: bool


def unfinished_weld(jobs: Iterable[WeldJob]) -> tuple[str, WeldJob | None] | None:
    """What the jobs of one weld leave: ("tacked" or "uninspected", the job that is next).

    None when nothing has begun, or when it is inspected. Tacked is not welded, welded is not
    inspected: a step that is over counts only as far as the ones before it are over too. Jobs come
    in any order. Where steps are lacking the weld stays as the last one left it, and no job is
    next. Source: common practice, no source.
    """
    steps = sorted(jobs, key=lambda job: ORDER.index(Weld(job.weld)))
    if not any(job.over for job in steps):
        return None
    first = next((job for job in steps if not job.over), None)
    if first:
        return ("uninspected" if first.weld == Weld.INSPECTED else "tacked"), first
    if steps[-1].weld == Weld.INSPECTED:
        return None
    return ("uninspected" if steps[-1].weld == Weld.WELDED else "tacked"), None

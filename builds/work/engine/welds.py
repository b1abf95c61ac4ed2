"""Welded parts between the tack and the inspection, as the steps of a recipe leave them."""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Iterator
from datetime import datetime
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
    """A job whose end leaves a weld in a state; `over` when it is done, or signed.

    `ended` (aware) is when, or when it was written down; jobs of one `batch` came onto the car together.
    """

    id: int
    title: str
    weld: str
    over: bool
    ended: datetime = datetime.min
    systems: frozenset[str] = frozenset()
    batch: Hashable = None


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


def welds_left(jobs: Iterable[WeldJob]) -> Iterator[tuple[str, WeldJob, bool]]:
    """Of one car each weld that was begun and not inspected: how it is left, a job, whether it was the last.

    The job is the one that comes next, else the last one that was. Jobs of one weld share their
    batch. Where its steps were left out or dropped, only an inspection that ended later on the same
    systems of the car clears it. Source: common practice, no source.
    """
    told = tuple(jobs)
    welds: dict[Hashable, list[WeldJob]] = defaultdict(list)
    for job in told:
        welds[job.batch].append(job)
    inspections = [job for job in told if job.weld == Weld.INSPECTED and job.over]
    for steps in welds.values():
        left = unfinished_weld(job._replace(over=job.over and not _before_others(job, steps)) for job in steps)
        if left is None:
            continue
        state, following = left
        if following:
            yield state, following, False
        elif not any(_clears(inspection, steps) for inspection in inspections):
            ahead = next((job for job in told if not job.over and _is_about(job, steps)), None)
            last = max(steps, key=lambda job: (job.ended, ORDER.index(Weld(job.weld))))
            yield state, ahead or last, ahead is None


def _before_others(job: WeldJob, steps: list[WeldJob]) -> bool:
    """Whether it inspected a weld that was worked on again afterwards."""
    later = (other for other in steps if other.ended > job.ended)
    return job.weld == Weld.INSPECTED and any(other.weld != Weld.INSPECTED for other in later)


def _is_about(job: WeldJob, steps: list[WeldJob]) -> bool:
    """Whether it inspects what these jobs weld, by the systems of the car."""
    systems = frozenset[str]().union(*(step.systems for step in steps))
    return job.weld == Weld.INSPECTED and not systems.isdisjoint(job.systems)


def _clears(inspection: WeldJob, steps: list[WeldJob]) -> bool:
    """Whether it looked at the weld of these jobs after the last of them."""
    return inspection.ended > max(job.ended for job in steps) and _is_about(inspection, steps)

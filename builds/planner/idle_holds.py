"""Holds that would keep a station for a car on which nothing follows for long, and the work of others that fits in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builds.planner.model import NEVER, PENDING, Model
from builds.planner.place import Places


def kept_out(model: Model, places: Places) -> Iterator[tuple[int, int]]:
    """By number, the first job of a hold and one of another car that waits for the station, and would be over before
    anything follows on the held car; the longest wait on a held car first.
    """
    waits = []
    for first, block in model.holds.blocks.items():
        follow = [places.start[j] for j in block.members if first in model.ancestors(j) and places.end[j] > PENDING]
        if first not in model.facts and PENDING < places.end[first] < NEVER and follow:
            waits.append((min(follow) - places.end[first], first, block.barred))
    for wait, first, barred in sorted(waits, key=lambda hold: -hold[0]):
        for job in sorted(barred, key=places.start.__getitem__):
            if model.work[job] <= wait and places.start[job] >= places.end[first] and _is_other(model, first, job):
                yield first, job


def _is_other(model: Model, first: int, job: int) -> bool:
    jobs = model.problem.jobs
    return jobs[job].vehicle != jobs[first].vehicle and first not in model.ancestors(job)


def put_ahead(model: Model, order: Sequence[int], job: int, first: int) -> list[int]:
    """The order with a job, and all that it waits for, ahead of another that it does not wait for."""
    to, position = order.index(first), order.index(job)
    along = {job, *model.ancestors(job)}
    passed = order[to : position + 1]
    moved = [*order[:to], *(j for j in passed if j in along), *(j for j in passed if j not in along)]
    return sorted([*moved, *order[position + 1 :]], key=model.stage.__getitem__)

"""One corner of a car takes one job at a time: stations for the planner, of jobs whose words name the same corner."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations_with_replacement

from builds.plan.engine.ids import CORNER, id_of
from builds.plan.facts.rows import PlanRows
from builds.planner.problem import Station
from builds.readings.engine.corners_said import are_apart, called, corner_said, is_one_corner
from builds.readings.engine.kinds_touch import touched
from builds.readings.engine.sorts_of_job import CORNER_SYSTEMS
from builds.work.models.job import Job
from builds.work.models.states import State

Corner = frozenset[str]


def stations(rows: PlanRows) -> Iterator[Station]:
    """Only where it makes a difference. What is in hand there already has room."""
    for (car, one, other), jobs in _shared(rows).items():
        room = max(1, sum(job.state == State.IN_HAND for job in jobs))
        yield Station(_id(car, one, other), room, None, called(one, jobs[0].vehicle.name))


def uses(rows: PlanRows) -> dict[int, dict[str, int]]:
    """By job (pk) the units that it takes of those stations (ids)."""
    units: dict[int, dict[str, int]] = defaultdict(dict)
    for shared, jobs in _shared(rows).items():
        for job in jobs:
            units[job.pk][_id(*shared)] = 1
    return units


def _id(car: int, one: Corner, other: Corner) -> str:
    return id_of("-".join([CORNER, *sorted(one), *sorted(other)]), car)


def _shared(rows: PlanRows) -> dict[tuple[int, Corner, Corner], list[Job]]:
    """By car (pk) and corners, which may be the same by two names, the jobs that are done there, two at least."""
    at: dict[int, dict[Corner, list[Job]]] = defaultdict(lambda: defaultdict(list))
    for job in rows.work.jobs.values():
        corner = corner_said(job.title)
        if job.hands and is_one_corner(corner) and not CORNER_SYSTEMS.isdisjoint(touched(job.systems, job.kinds)):
            at[job.vehicle_id][corner].append(job)
    return {
        (car, one, other): jobs
        for car, corners in at.items()
        for one, other in combinations_with_replacement(corners, 2)
        if len(jobs := corners[one] + (corners[other] if other != one else [])) > 1 and not are_apart(one, other)
    }

"""What is not done at the same time on one car, or in the shop, for the planner: stations kept whole or shared.

The engine of a car is shared by all who have their hands in it; whoever runs it has it whole.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from builds.plan.engine.ids import id_of
from builds.plan.facts.nights import night_of
from builds.plan.facts.rows import PlanRows
from builds.planner.problem import Station
from builds.work.engine.apart import APART, OUTSIDE, Apart
from builds.work.models.job import Job


@dataclass(frozen=True)
class _Kept:
    """One rule where there is work of both sorts, and the jobs that it keeps apart: of one car, or of all in the shop.

    `id` is that of the station in the problem.

    A job takes at least one person's time, so that there is `room` for as many as could be worked on at once.
    """

    rule: Apart
    jobs: list[Job]
    room: int
    id: str


def stations(rows: PlanRows) -> Iterator[Station]:
    """Only where it makes a difference."""
    for kept in _kept(rows):
        yield Station(kept.id, kept.room, None, kept.rule.called(kept.jobs[0].vehicle.name))


def uses(rows: PlanRows) -> dict[int, dict[str, int]]:
    """By job (pk) the units that it takes of those stations (ids)."""
    units: dict[int, dict[str, int]] = defaultdict(dict)
    for kept in _kept(rows):
        for job in kept.jobs:
            units[job.pk][kept.id] = kept.room if kept.rule.is_alone(job) else 1
    return units


def rules_of(job: Job) -> list[str]:
    """Those that keep other work of its car apart from this one, by what they are about."""
    return [rule.what for rule in APART if rule.is_alone(job) or (rule.rest and rule.is_rest(job))]


def _kept(rows: PlanRows) -> Iterator[_Kept]:
    by_car: dict[int, list[Job]] = defaultdict(list)
    for job in rows.work.jobs.values():
        by_car[job.vehicle_id].append(job)
    outside = {station.pk for station in rows.stations if station.slug in OUTSIDE}
    in_shop = [job for job in rows.work.jobs.values() if not _is_outside(job, rows, outside)]
    for rule in APART:
        for beside in [in_shop] if rule.whole_shop else by_car.values():
            alone = any(rule.is_alone(job) for job in beside)
            jobs = [job for job in beside if rule.is_alone(job) or rule.is_rest(job)]
            room = min(len(jobs), len(rows.members))
            if alone and room > 1 and any(rule.is_rest(job) for job in jobs):
                car = jobs[0].vehicle
                yield _Kept(rule, jobs, room, id_of(rule.what, car.garage_id if rule.whole_shop else car.pk))


def _is_outside(job: Job, rows: PlanRows, outside: set[int]) -> bool:
    """In the paddock, or at one of the stations (pk) `outside`."""
    return night_of(job, rows) is not None or any(use.station_id in outside for use in rows.uses.get(job.pk, ()))

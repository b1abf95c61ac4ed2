"""What is not done at the same time on one car, or in the shop, for the planner: stations kept whole or shared.

The engine of a car is shared by all who have their hands in it; whoever runs it has it whole. What was begun
and leaves a car open is done before all that is kept apart from it.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from builds.cure.engine.plan_clock import slots_for
from builds.plan.engine import why
from builds.plan.engine.ids import id_of
from builds.plan.facts.nights import night_of
from builds.plan.facts.rows import PlanRows
from builds.planner.problem import Link, Station
from builds.work.engine.apart import APART, OUTSIDE, Apart
from builds.work.engine.room_now import StillInAir
from builds.work.engine.working_order import reached_from
from builds.work.models.job import Job
from builds.work.models.states import State


@dataclass(frozen=True)
class _Kept:
    """One rule where there is work of both sorts, and the jobs that it keeps apart: the `whole` ones from all others.

    `id` is that of the station in the problem, `called` its name. A job takes at least one person's time,
    so that there is `room` for as many as could be worked on at once. It `clears` in so many minutes.
    """

    id: str
    called: str
    whole: list[Job]
    others: list[Job]
    room: int
    clears: int


def stations(rows: PlanRows) -> Iterator[Station]:
    """Only where it makes a difference."""
    for kept in _kept(rows):
        yield Station(kept.id, kept.room, None, kept.called)


def clears(rows: PlanRows) -> dict[int, int]:
    """By job (pk) the slots for which those stations stay taken after it."""
    return {job.pk: slots_for(kept.clears) for kept in _kept(rows) for job in kept.whole if kept.clears}


def uses(rows: PlanRows) -> dict[int, dict[str, int]]:
    """By job (pk) the units that it takes of those stations (ids)."""
    units: dict[int, dict[str, int]] = defaultdict(dict)
    for kept in _kept(rows):
        units |= {job.pk: {**units[job.pk], kept.id: 1} for job in kept.others}
        units |= {job.pk: {**units[job.pk], kept.id: kept.room} for job in kept.whole}
    return units


def links(rows: PlanRows) -> Iterator[Link]:
    """What was begun and left open, or found so, before all that is not done beside it."""
    drawn, barred = set(rows.work.pairs), _barred(rows)
    for rule, left, job in _left_open(rows):
        pair = (left.pk, job.pk)
        if pair not in drawn and job.pk not in barred:
            drawn.add(pair)
            yield Link(id_of("job", left.pk), id_of("job", job.pk), why=rule.why)


def air_clears(job: Job, rows: PlanRows) -> Iterator[StillInAir]:
    """What went on a moment ago and keeps the job out for so long."""
    if rows.clearing:
        inside = not _is_outside(job, _stations_outside(rows), rows)
        for still in rows.clearing:
            for rule in APART:
                met = rule.meets(same_car=still.work.car == job.vehicle_id, inside=inside)
                if rule.clears and met and still.work.job != job.pk and rule.keeps_apart(job, still.work):
                    yield still


def refused(rows: PlanRows) -> dict[str, str]:
    """By id a sentence for each job that would have to wait for one that waits for it."""
    return {
        id_of("job", pk): why.waits_for_it(
            rule.called(left.vehicle.name),
            rule.while_alone,
            left.title,
            begun=rows.work.put_down(left.pk),
            both="" if left.pk in reached_from(pk, rows.work.pairs) else rule.why,
        )
        for pk, (rule, left) in _barred(rows).items()
    }


def rules_of(job: Job, rows: PlanRows) -> list[str | bool]:
    """Those that keep other work apart from this one, by what they are about, and whether it was left open."""
    told = [rule.what for rule in APART if rule.is_alone(job) or (rule.rest and rule.is_rest(job))]
    return [*told, any(_leaves(rule, job, rows) for rule in APART)] if told else []


def _barred(rows: PlanRows) -> dict[int, tuple[Apart, Job]]:
    """By job (pk) the rule, and what was left open, that it would have to wait for and that waits for it."""
    barred = {(left.pk, job.pk): (rule, left) for rule, left, job in _left_open(rows)}
    return {
        job: rule_and_left
        for (left, job), rule_and_left in barred.items()
        if (job, left) in barred or left in reached_from(job, rows.work.pairs)
    }


def _left_open(rows: PlanRows) -> Iterator[tuple[Apart, Job, Job]]:
    """By rule each job that leaves its car open while nobody is at it, with each that is not done beside it."""
    where = _Where(rows)
    for rule in APART:
        for left in where.jobs:
            if _leaves(rule, left, rows):
                for job in where.jobs:
                    if job.state != State.IN_HAND and rule.is_rest(job) and where.apart(rule, left, job):
                        yield rule, left, job


def _leaves(rule: Apart, job: Job, rows: PlanRows) -> bool:
    return rows.work.rests(job.pk) and rule.leaves_open(job, begun=rows.work.put_down(job.pk))


class _Where:
    """Which jobs are done outside the shop."""

    def __init__(self, rows: PlanRows) -> None:
        self.jobs: list[Job] = list(rows.work.jobs.values())
        stations = _stations_outside(rows)
        self.outside = {job.pk for job in self.jobs if _is_outside(job, stations, rows)}

    def meet(self, rule: Apart, job: Job, other: Job) -> bool:
        inside = self.outside.isdisjoint({job.pk, other.pk})
        return rule.meets(same_car=job.vehicle_id == other.vehicle_id, inside=inside)

    def apart(self, rule: Apart, job: Job, other: Job) -> bool:
        return job.pk != other.pk and rule.keeps_apart(job, other) and self.meet(rule, job, other)


def _stations_outside(rows: PlanRows) -> set[int]:
    return {station.pk for station in rows.stations if station.slug in OUTSIDE}


def _is_outside(job: Job, stations: set[int], rows: PlanRows) -> bool:
    """In the paddock, or at one of these stations (pk)."""
    return night_of(job, rows) is not None or any(use.station_id in stations for use in rows.uses.get(job.pk, ()))


def _kept(rows: PlanRows) -> Iterator[_Kept]:
    """A station for each car or shop; where cars stand open side by side, for each job that leaves one so."""
    where = _Where(rows)
    for rule in APART:
        groups: dict[str, list[Job]] = defaultdict(list)
        for job in filter(rule.is_alone, where.jobs):
            if rule.stays or where.meet(rule, job, job):
                of = job.pk if rule.stays else job.vehicle.garage_id if rule.whole_shop else job.vehicle_id
                groups[id_of(rule.what, of)].append(job)
        for station, whole in groups.items():
            here = {job.pk for job in whole}
            others = [job for job in where.jobs if job.pk not in here and where.apart(rule, whole[0], job)]
            many = len(whole) + len(others)
            hands = min(many, len(rows.members))
            if (hands > 1 or (rule.clears and many > 1)) and any(map(rule.is_rest, (*others, *whole))):
                # Two at the least: so it can be told from its units who has all of it.
                yield _Kept(station, rule.called(whole[0].vehicle.name), whole, others, max(2, hands), rule.clears)

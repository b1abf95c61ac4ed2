"""What the plan and its odds mean for the entered cars, from rows."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime

from builds.plan.engine.ids import id_of
from builds.plan.engine.outcome import CarOutcome, MustDoJob, outcome
from builds.plan.engine.outlook import LeavingCar, Outlook, outlook
from builds.plan.engine.stored import Stored
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.must_do import must_do
from builds.plan.facts.prospects import Prospect, prospects
from builds.verdict.engine import Verdict
from builds.verdict.engine.on_plan import OnPlan
from builds.work.models.job import Job
from garage.facts.entries import entries_ahead, first_of_each_car
from garage.models import Entry, Garage


def outcomes(
    garage: Garage, plan: TimedPlan | None, at: datetime, to_do: Iterable[Job] | None = None
) -> dict[int, CarOutcome]:
    """What the plan by itself says, by the pk of each entry whose event is not over; two queries.

    `to_do` are the open jobs of the garage `with_morning`, if they are at hand.
    """
    entries = entries_ahead(garage, at)
    jobs = must_do(Job.objects.in_garage(garage).open().with_morning() if to_do is None else to_do)
    return {entry.pk: outcome_of(plan, entry, jobs.get(entry.vehicle_id, []), at) for entry in entries}


def outcome_of(plan: TimedPlan | None, entry: Entry, jobs: list[MustDoJob], at: datetime) -> CarOutcome:
    return outcome(plan, in_time_for(entry, jobs, at), ready_by(entry, jobs, at), at)


def in_time_for(entry: Entry, jobs: Iterable[MustDoJob], at: datetime) -> list[MustDoJob]:
    """Those that must be done for it to leave; once it has left, all: nights at the event are still to come."""
    leaves = entry.event.due_at
    return [job for job in jobs if leaves <= at or job.due is None or job.due <= leaves]


def ready_by(entry: Entry, jobs: Sequence[MustDoJob], at: datetime) -> datetime:
    """When its work must be done: when the car leaves, or at the event in the morning after its repairs.

    Work that the car should have had before it left is late, whatever is done overnight.
    """
    leaves = entry.event.due_at
    mornings = [job.due for job in jobs]
    if leaves > at or not mornings or None in mornings:
        return leaves
    return min(morning for morning in mornings if morning)


def runs_by(entry: Entry, jobs: Sequence[MustDoJob], at: datetime) -> datetime:
    """When all its work must be done, what is done in nights to come at its event too: the runs of odds count that."""
    leaves = ready_by(entry, jobs, at)
    return leaves if leaves <= at else max([leaves, *(job.due for job in jobs if job.due)])


def outlooks(
    garage: Garage, plan: Stored | None, entries: Sequence[Entry], to_do: Iterable[Job], at: datetime
) -> dict[int, Outlook]:
    """As `outlooks_of`, with what else stands in the way of each car on the day of each event.

    `to_do` are their open jobs at least, `with_morning`.
    Event and vehicle attached. As many queries for fifty cars as for one, and as many again for those
    with a second event ahead: what is in date for the first one may not be for that.
    """
    said: dict[int, Outlook] = {}
    open_jobs = list(to_do)
    jobs = must_do(open_jobs)
    while left := [entry for entry in entries if entry.pk not in said]:
        first = first_of_each_car(left)
        cars = [entry.vehicle for entry in first.values()]
        said |= outlooks_of(plan, first.values(), jobs, prospects(garage, at, cars, plan, first, jobs=open_jobs), at)
    return said


def outlooks_of(
    plan: Stored | None,
    entries: Iterable[Entry],
    jobs: Mapping[int, list[MustDoJob]],
    standing: Mapping[int, Prospect],
    at: datetime,
) -> dict[int, Outlook]:
    """By the pk of each entry; `jobs` are those that must be done, both by vehicle (pk). No query.

    `standing` is for these entries, so no car has two of them.
    """
    return {
        entry.pk: outlook(
            plan,
            plan.odds if plan else None,
            _leaving(entry, jobs.get(entry.vehicle_id, []), standing.get(entry.vehicle_id), at),
            at,
        )
        for entry in entries
    }


def _leaving(entry: Entry, jobs: list[MustDoJob], prospect: Prospect | None, at: datetime) -> LeavingCar:
    before = in_time_for(entry, jobs, at)
    car, due = id_of("car", entry.vehicle_id), ready_by(entry, jobs, at)
    return LeavingCar(car, before, due, _day(prospect), overnight=len(before) < len(jobs))


def _day(prospect: Prospect | None) -> OnPlan | Verdict | None:
    return None if prospect is None else prospect.on_plan or prospect.verdict

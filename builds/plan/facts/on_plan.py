"""How cars stand now, and how they will stand on their event's day if the plan goes as planned."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.cure.facts.plan_clock import name_of
from builds.plan.facts.stored import Stored
from builds.verdict.engine import Facts, Verdict, verdict
from builds.verdict.engine.on_plan import IN_TIME, OnPlan, PlannedJob, on_plan
from builds.verdict.facts.verdict import facts_of, next_entries
from builds.work.models.job import Job
from garage.models import Entry, Garage, Vehicle


@dataclass(frozen=True)
class Prospect:
    """`on_plan` None for a car that is entered for nothing, or whose event is over."""

    verdict: Verdict
    on_plan: OnPlan | None
    entry: Entry | None


def prospects(
    garage: Garage,
    at: datetime,
    vehicles: Iterable[Vehicle],
    plan: Stored | None,
    entries: dict[int, Entry] | None = None,
) -> dict[int, Prospect]:
    """By the pk of each car: for these entries, else for its next one; flat in queries."""
    cars = list(vehicles)
    entries = next_entries(cars, at) if entries is None else entries
    facts = facts_of(garage, at, cars, entries)
    measures = dict(Job.objects.filter(vehicle__in=cars).open().values_list("pk", "measures"))
    return {
        pk: Prospect(
            verdict(found),
            on_plan(found, _planned(found, entry, plan, measures, at))
            if (entry := entries.get(pk)) and entry.event.ends_at > at
            else None,
            entry,
        )
        for pk, found in facts.items()
    }


def _planned(
    facts: Facts, entry: Entry, plan: Stored | None, measures: dict[int, list[str]], at: datetime
) -> dict[int, PlannedJob]:
    due = entry.event.due_at
    return {
        job.id: _made_of(job.id, due, plan, tuple(measures.get(job.id, ())), at) for job in facts.jobs if job.unfinished
    }


def _made_of(job: int, due: datetime, plan: Stored | None, measures: tuple[str, ...], at: datetime) -> PlannedJob:
    """A job that the plan had over before now, and is not, is behind it."""
    name = name_of("job", job)
    if plan is None:
        return PlannedJob("none")
    if name in plan.unplaced:
        return PlannedJob("unplaced")
    row = plan.placed.get(name)
    if row is None:
        return PlannedJob("new")
    end, when = plan.clock.moment(row.end), plan.clock.words(row.end)
    if end > due:
        return PlannedJob("late", when)
    return PlannedJob("behind" if end <= at else IN_TIME, when, measures)

"""How cars stand now, and how they will stand on their event's day if the plan goes as planned."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.plan.engine.planned_job import planned_job
from builds.plan.engine.timed_plan import TimedPlan
from builds.verdict.engine import Facts, Verdict, verdict
from builds.verdict.engine.on_plan import OnPlan, on_plan
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
    plan: TimedPlan | None,
    entries: dict[int, Entry] | None = None,
) -> dict[int, Prospect]:
    """By the pk of each car: for these entries, else for its next one; flat in queries."""
    cars = list(vehicles)
    entries = next_entries(cars, at) if entries is None else entries
    measures = dict(Job.objects.filter(vehicle__in=cars).open().values_list("pk", "measures"))
    return prospects_of(facts_of(garage, at, cars, entries), entries, plan, measures)


def prospects_of(
    facts: Mapping[int, Facts],
    entries: Mapping[int, Entry],
    plan: TimedPlan | None,
    measures: Mapping[int, list[str]],
) -> dict[int, Prospect]:
    """As `prospects`, from facts and entries by the car (pk), and the readings that open jobs (pk) take."""
    return {car: _prospect(known, entries.get(car), plan, measures) for car, known in facts.items()}


def _prospect(facts: Facts, entry: Entry | None, plan: TimedPlan | None, measures: Mapping[int, list[str]]) -> Prospect:
    if entry is None or entry.event.ends_at <= facts.at:
        return Prospect(verdict(facts), None, entry)
    planned = {
        job.id: planned_job(plan, job.id, entry.event.due_at, facts.at, tuple(measures.get(job.id, ())))
        for job in facts.jobs
        if job.unfinished
    }
    return Prospect(verdict(facts), on_plan(facts, planned), entry)

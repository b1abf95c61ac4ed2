"""How cars stand now, and how they will stand on their event's day if the plan goes as planned."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.plan.engine.planned_job import planned_job
from builds.plan.engine.timed_plan import TimedPlan
from builds.readings.engine.kinds_of_work import KINDS
from builds.verdict.engine import Facts, Verdict, verdict
from builds.verdict.engine.on_plan import OnPlan, PlannedJob, on_plan
from builds.verdict.facts.fleet import facts_of, next_entries
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
    *,
    jobs: Iterable[Job] | None = None,
) -> dict[int, Prospect]:
    """By the pk of each car: for these entries, else for its next one; flat in queries.

    `jobs` are the open ones of the cars `with_morning`, if they are at hand.
    """
    cars = list(vehicles)
    entries = next_entries(garage, cars, at) if entries is None else entries
    rows = Job.objects.filter(vehicle__in=cars).open().with_morning() if jobs is None else jobs
    by_pk = {job.pk: job for job in rows}
    return prospects_of(facts_of(garage, at, cars, entries), entries, plan, by_pk)


def prospects_of(
    facts: Mapping[int, Facts],
    entries: Mapping[int, Entry],
    plan: TimedPlan | None,
    jobs: Mapping[int, Job],
) -> dict[int, Prospect]:
    """As `prospects`, from facts and entries by the car (pk), and their open jobs by pk."""
    return {car: _prospect(known, entries.get(car), plan, jobs) for car, known in facts.items()}


def _prospect(facts: Facts, entry: Entry | None, plan: TimedPlan | None, jobs: Mapping[int, Job]) -> Prospect:
    if entry is None or entry.event.ends_at <= facts.at:
        return Prospect(verdict(facts), None, entry)
    return Prospect(verdict(facts), on_plan(facts, _planned(facts, entry, plan, jobs)), entry)


def _planned(
    facts: Facts, entry: Entry, plan: TimedPlan | None, jobs: Mapping[int, Job]
) -> dict[int, PlannedJob] | None:
    """What the plan makes of the unfinished jobs; None where there are some and no plan."""
    unfinished = [job.id for job in facts.jobs if job.unfinished]
    if plan is None:
        return None if unfinished else {}
    return {
        pk: planned_job(
            plan,
            pk,
            night.due_at if (night := jobs[pk].overnight(facts.at)) else entry.event.due_at,
            facts.at,
            measures=tuple(jobs[pk].measures),
            kinds=tuple(kind for kind in jobs[pk].kinds if kind in KINDS),
        )
        for pk in unfinished
        if pk in jobs
    }

"""What the plan on the wall makes of a job, beside the plan that stood when it was written."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.plan.engine.ids import id_of
from builds.plan.engine.instead_of import read_instead_of
from builds.plan.engine.outcome import CarOutcome
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import in_time_for, outcome_of, ready_by
from builds.plan.facts.stored import shown
from builds.work.models.job import Job
from garage.facts.entries import entries_ahead, first_of_each_car
from garage.models import Entry, Garage


@dataclass(frozen=True)
class Effect:
    """By car (pk) of each entry when it was ready `before` (aware), and what becomes of it in the `plan` with the job.

    A car that is not in `before`, or not in `after`, has no work that it must have before it is `due` (aware); None
    where some of it had no place.
    """

    job: Job
    plan: TimedPlan
    entries: dict[int, Entry]
    due: dict[int, datetime]
    before: Mapping[int, datetime | None]
    after: dict[int, CarOutcome]


def effect_of(garage: Garage, job: Job, *, stood: int | None, at: datetime) -> Effect | None:
    """None where no car is entered, or the plan on the wall did not take the place of the one that `stood` (pk)."""
    plan = shown(garage)
    if plan is None or id_of("job", job.pk) not in plan.jobs:
        return None
    instead = read_instead_of(plan.row.made_from)
    entries = first_of_each_car(entries_ahead(garage, at))
    if not entries or (instead.plan if instead else None) != stood:
        return None
    jobs = must_do(Job.objects.in_garage(garage).open().with_morning())
    left = {car: jobs[car] for car, entry in entries.items() if in_time_for(entry, jobs.get(car, ()), at)}
    ready = {car: id_of("car", car) for car in entries}
    return Effect(
        job,
        plan,
        entries,
        {car: ready_by(entry, jobs.get(car, ()), at) for car, entry in entries.items()},
        {car: instead.ready[name] for car, name in ready.items() if name in instead.ready} if instead else {},
        {car: outcome_of(plan, entries[car], mine, at) for car, mine in left.items()},
    )

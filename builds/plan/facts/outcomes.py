"""What the plan means for the entered cars, from rows."""

from collections.abc import Iterable, Mapping
from datetime import datetime

from builds.plan.engine.outcome import CarOutcome, MustDoJob, outcome
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.must_do import must_do
from builds.plan.facts.stored import shown
from builds.work.models.job import Job
from garage.models import Entry, Garage


def outcomes(garage: Garage, at: datetime) -> dict[int, CarOutcome]:
    """By the pk of each entry whose event is not over; three queries."""
    entries = Entry.objects.in_garage(garage).upcoming(at).select_related("event", "vehicle")
    return outcomes_of(shown(garage), entries, must_do(Job.objects.in_garage(garage).open()), at)


def outcomes_of(
    plan: TimedPlan | None, entries: Iterable[Entry], jobs: Mapping[int, list[MustDoJob]], at: datetime
) -> dict[int, CarOutcome]:
    """By the pk of each entry; `jobs` are those that must be done, by vehicle (pk)."""
    return {entry.pk: outcome(plan, jobs.get(entry.vehicle_id, []), entry.event.due_at, at) for entry in entries}

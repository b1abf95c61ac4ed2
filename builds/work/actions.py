"""Turning a job from one state to the next: one wins, and who did it when is written down."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.db import transaction

from builds.work.engine.work_left import LEAST_LEFT, minutes_between
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import JOB_STATES, State
from garage.actions.refused import Refused
from garage.models import Membership

NOTE = 200


def locked(job: Job) -> Job:
    """The row as it is now, held until the transaction ends, so that two who tap take turns."""
    return Job.objects.select_for_update(of=("self",)).select_related("vehicle__garage").get(pk=job.pk)


@transaction.atomic
def turn(
    job: Job,
    step: str,
    *,
    by: Membership,
    at: datetime,
    after: State | None = None,
    crew: Iterable[Membership] = (),
    note: str = "",
    **changes: Any,
) -> Span:
    """Take the step if the row still allows it: of two people who tap at once, one is refused.

    `after` differs from the table's only where a step ends elsewhere. `job` is brought up to date.
    """
    row = JOB_STATES.steps[step]
    state = after or row.after
    moved = Job.objects.filter(pk=job.pk, state__in=row.before).update(state=state, **changes)
    if not moved:
        job.refresh_from_db(fields=["state"])
        raise Refused(JOB_STATES.refusal(step, job.state) or "Somebody else was first: look again.")
    end_running(job, at)
    span = Span.objects.create(job=job, state=state, from_at=at, by=by, note=note[:NOTE])
    span.crew.set(crew)
    job.refresh_from_db()
    return span


def end_running(job: Job, at: datetime) -> Span | None:
    """End the running span; what was said to be left by hand runs down by the time worked."""
    span = running_span(job)
    if span is None:
        return None
    if at < span.from_at:
        raise Refused("That would be before the step it ends: choose a later time.")
    span.until_at = at
    span.save(update_fields=["until_at"])
    left = Job.objects.filter(pk=job.pk).values_list("left_minutes", flat=True).get()
    if span.state == State.IN_HAND and left is not None:
        worked = minutes_between([(span.from_at, at)], at)
        Job.objects.filter(pk=job.pk).update(left_minutes=max(LEAST_LEFT, left - worked))
    return span


def running_span(job: Job) -> Span | None:
    return Span.objects.filter(job=job).running().prefetch_related("crew").first()


def hands_now(job: Job) -> list[Membership]:
    """Who has it in hand."""
    span = running_span(job)
    return span.people if span and span.state == State.IN_HAND else []


def set_left(job: Job, minutes: int | None, *, at: datetime) -> None:
    """Put down by hand what is left now; while in hand it runs down from here."""
    span = running_span(job)
    if minutes is not None and span is not None and span.state == State.IN_HAND:
        minutes += minutes_between([(span.from_at, at)], at)
    job.left_minutes = minutes
    job.save(update_fields=["left_minutes"])

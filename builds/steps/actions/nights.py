"""Jobs done overnight in the paddock of an event, instead of at home."""

from datetime import datetime

from django.db import transaction

from builds.readings.actions import remeasure
from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES
from garage.actions.refused import Refused
from garage.models import Entry, Membership, Night


def refuse_overnight(job: Job, night: Night, at: datetime) -> str | None:
    """Why a job cannot be done in that night: it is over, or its car is not there."""
    if job.state not in OPEN_STATES:
        return f"“{job}” is {job.get_state_display()}: open it again first."
    if night.due_at <= at:
        return f"That night at {night.event} is over."
    if not Entry.objects.coming().filter(event=night.event_id, vehicle=job.vehicle_id).exists():
        return f"{job.vehicle} is not entered for {night.event}."
    return None


def do_overnight(job: Job, night: Night, *, by: Membership, at: datetime) -> None:
    """It is planned in the paddock, by whoever goes there, and due in the morning. Raises Refused."""
    if wrong := refuse_overnight(job, night, at):
        raise Refused(wrong)
    _do(job, night, by=by, at=at)


def do_at_home(job: Job, *, by: Membership, at: datetime) -> None:
    _do(job, None, by=by, at=at)


@transaction.atomic
def _do(job: Job, night: Night | None, *, by: Membership, at: datetime) -> None:
    job.night = night
    job.save(update_fields=["night"])
    remeasure.settle(job.vehicle, by=by, at=at)

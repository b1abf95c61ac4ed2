"""Hold points: added to a job, and signed by a second pair of eyes."""

from datetime import datetime

from django.db import transaction

from builds.actions.signatures import alone_or_refuse
from builds.actions.steps import finish_signed
from builds.models import HoldPoint, Job
from builds.models.states import FINISHED_STATES, State
from garage.actions.refused import Refused
from garage.models import Membership


@transaction.atomic
def add(job: Job, what: str) -> HoldPoint:
    if job.state in (*FINISHED_STATES, State.DROPPED):
        raise Refused(f"{job} is {job.get_state_display()}: open it again first.")
    return HoldPoint.objects.create(job=job, what=what)


@transaction.atomic
def sign(
    point: HoldPoint, *, by: Membership, at: datetime, who: Membership | None = None, seen: str = ""
) -> bool:
    """Sign that it was looked at; True when that was the last thing its job waited for."""
    who = who or by
    if point.job.state == State.OPEN:
        raise Refused(f"Work on {point.job} has not begun: there is nothing to look at yet.")
    alone = alone_or_refuse(point.job, who)
    signed = HoldPoint.objects.filter(pk=point.pk, signed_at=None).update(
        signed_by=who, signed_at=at, seen=seen, alone=alone
    )
    if not signed:
        raise Refused("This hold point is signed already.")
    return finish_signed(point.job, by=who, at=at, alone=alone)


@transaction.atomic
def remove(point: HoldPoint) -> None:
    if point.signed_at is not None:
        raise Refused("A signed hold point stays.")
    if point.job.state == State.HELD:
        raise Refused("The work waits at this hold point: it is signed, not removed.")
    point.delete()

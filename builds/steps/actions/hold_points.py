"""Hold points: added to a job, and signed by a second pair of eyes."""

from datetime import datetime

from django.db import transaction

from builds.steps.actions.signatures import alone_or_refuse
from builds.steps.actions.steps import finish_signed
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.states import FINISHED_STATES, State
from garage.actions.refused import Refused
from garage.engine.units import QuantityError, parse_number
from garage.models import Membership


@transaction.atomic
def add(
    job: Job,
    what: str,
    *,
    asks: str = "",
    unit: str = "",
    low_milli: int | None = None,
    high_milli: int | None = None,
) -> HoldPoint:
    """`asks` for a figure in `unit` within bounds (thousandths), or without a unit for words."""
    if job.state in (*FINISHED_STATES, State.DROPPED):
        raise Refused(f"{job} is {job.get_state_display()}: open it again first.")
    return HoldPoint.objects.create(
        job=job, what=what, asks=asks, unit=unit, low_milli=low_milli, high_milli=high_milli
    )


def refuse_value(point: HoldPoint, value: str) -> str | None:
    """Why this is not what the point asks for; a figure out of its bounds is not signed."""
    if not point.asks:
        return None
    if not value:
        return f"This point asks for a value: {point.asks}."
    if not point.unit:
        return None
    try:
        milli = parse_number(value) * 1000
    except QuantityError as wrong:
        return str(wrong)
    low, high = point.low_milli, point.high_milli
    if (low is not None and milli < low) or (high is not None and milli > high):
        return f"{value} {point.unit} is not {point.bounds}: it is not signed like that."
    return None


@transaction.atomic
def sign(
    point: HoldPoint,
    *,
    by: Membership,
    at: datetime,
    who: Membership | None = None,
    seen: str = "",
    value: str = "",
) -> bool:
    """Sign that it was looked at; True when that was the last thing its job waited for."""
    who, value = who or by, value.strip()
    if point.job.state == State.OPEN:
        raise Refused(f"Work on {point.job} has not begun: there is nothing to look at yet.")
    alone = alone_or_refuse(point.job, who, by)
    if refusal := refuse_value(point, value):
        raise Refused(refusal, "value")
    signed = HoldPoint.objects.filter(pk=point.pk, signed_at=None).update(
        signed_by=who, signed_at=at, seen=seen, value=value, alone=alone
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

"""Hold points: added to a job, and signed by a second pair of eyes."""

from datetime import datetime

from django.db import transaction

from builds.steps.actions.signatures import look_or_refuse
from builds.steps.actions.steps import finish_signed
from builds.steps.facts.looks import for_safety, hands_looked_at
from builds.work.actions import locked
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.states import FINISHED_STATES, State
from garage.actions.refused import Refused
from garage.engine.reasons import names_something, refuse_faulty
from garage.engine.said import said_in, says_unit
from garage.engine.units import QuantityError
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
        raise Refused(f"“{job}” is {job.get_state_display()}: open it again first.")
    return HoldPoint.objects.create(
        job=job, what=what, asks=asks, unit=unit, low_milli=low_milli, high_milli=high_milli
    )


def refuse_value(point: HoldPoint, value: str) -> str | None:
    """Why this is not what the point asks for; a figure out of its bounds is not signed."""
    if not point.asks:
        return None
    if not names_something(value):
        return f"This point asks for a value: {point.asks}."
    if not point.unit:
        return None
    try:
        milli = said_in(value, point.unit) * 1000
    except QuantityError as wrong:
        return str(wrong)
    low, high = point.low_milli, point.high_milli
    if (low is not None and milli < low) or (high is not None and milli > high):
        typed = value if says_unit(value) else f"{value} {point.unit}"
        return f"{typed} is not {point.bounds}: it is not signed like that."
    return None


@transaction.atomic
def sign(
    point: HoldPoint,
    *,
    by: Membership,
    at: datetime,
    who: Membership | None = None,
    outsider: str = "",
    seen: str = "",
    value: str = "",
) -> bool:
    """Sign that it was looked at; True when that was the last thing its job waited for."""
    # Of two who sign the last two points at once, one must see the other's.
    job, value = locked(point.job), value.strip()
    if job.state == State.OPEN:
        raise Refused(f"Work on “{job}” has not begun: there is nothing to look at yet.")
    workers, garage = hands_looked_at([job])[job.pk], job.vehicle.garage_id
    look = look_or_refuse(workers, safety=for_safety(job), garage=garage, by=by, who=who, outsider=outsider)
    if refusal := refuse_value(point, value):
        raise Refused(refusal, "value")
    if refusal := refuse_faulty(seen):
        raise Refused(refusal, "seen")
    unsigned = HoldPoint.objects.filter(pk=point.pk, signed_at=None)
    if not unsigned.update(signed_at=at, seen=seen, value=value, **look.on_row()):
        raise Refused("This hold point is signed already.")
    return finish_signed(job, look, at=at)


@transaction.atomic
def remove(point: HoldPoint) -> None:
    """One that somebody added; where lives hang on it, what a recipe holds at is looked at by another."""
    if point.signed_at is not None:
        raise Refused("A signed hold point stays.")
    if point.job.state == State.HELD:
        raise Refused("The work waits at this hold point: it is signed, not removed.")
    if point.job.recipe and for_safety(point.job):
        raise Refused("This hold point came with its recipe, and lives hang on it: it stays, and another signs it.")
    point.delete()

"""What somebody sees on a car becomes a job: while something else is done there, or in passing."""

from datetime import datetime
from typing import Any

from django.db import transaction

from builds.steps.actions import jobs
from builds.steps.engine.by_words import ByWords, first_guess, found_said, skill_asked
from builds.steps.facts.by_words import ToldByWords, told_new, told_of
from builds.steps.facts.looks import for_safety
from builds.work.models.finding import Finding
from builds.work.models.job import Job
from garage.access import refuse_working
from garage.actions.refused import Refused
from garage.models import Membership, Vehicle


def _same_trade(found: ByWords, during: Job) -> bool:
    """Whether what was found wants whom the job wants that it was found in: a welder, a painter."""
    asked = skill_asked(found.kinds, found.measures)
    return bool(asked) and asked == skill_asked(during.kinds, during.measures)


@transaction.atomic
def found(during: Job, line: str, *, hurts: bool, by: Membership, at: datetime) -> Job:
    """Open a job on the same car: safety when someone could get hurt or `during` is for safety, else needed.

    It touches what the line names, and is likely to open that. What a line that names nothing touches nobody has
    said, but whose a hose is: where it was seen does not say it, though it is then no less grave than `during`.
    Whoever welds or paints there may have a skill that the garage calls otherwise: what is found of that trade asks
    for the same.
    """
    said = found_said(line, during.systems)
    told = told_of(during.vehicle.garage_id, said)
    skill = told.skill or (during.skill if _same_trade(said, during) else None)
    as_during = not said.touches and for_safety(during)
    dangerous = hurts or as_during
    opened = _opened(during.vehicle, line, told, hurts=dangerous, by=by, at=at, found_in=during, skill=skill)
    Finding.objects.create(during=during, opened=opened, line=line, hurts=hurts, by=by, at=at)
    return opened


@transaction.atomic
def seen(vehicle: Vehicle, line: str, *, hurts: bool = False, by: Membership, at: datetime, **more: Any) -> Job:
    """As `found`, by somebody who had nothing there in hand: only the line says what it touches."""
    return _opened(vehicle, line, told_new(vehicle.garage_id, line), hurts=hurts, by=by, at=at, **more)


def _opened(
    vehicle: Vehicle, line: str, told: ToldByWords, *, hurts: bool, by: Membership, at: datetime, **more: Any
) -> Job:
    """Whoever works here says what he sees on any car, also on one that he does not work on. Raises Refused."""
    if refused := refuse_working(by):
        raise Refused(refused)
    return jobs.add_after(
        vehicle,
        by=by,
        at=at,
        title=line,
        work=first_guess(told.said.kinds),
        rank=Job.Rank.SAFETY if hurts or told.said.hurts else "",
        seen=True,
        **{**told.fields, "kinds_likely": True, **more},
    )

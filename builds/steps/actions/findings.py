"""Something found while doing something else becomes a job that knows where it was found."""

from datetime import datetime

from django.db import transaction

from builds.steps.actions import jobs
from builds.steps.engine.by_words import ByWords, first_guess, found_said, skill_asked
from builds.steps.facts.by_words import told_of
from builds.steps.facts.looks import for_safety
from builds.work.models.finding import Finding
from builds.work.models.job import Job
from garage.models import Membership


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
    dangerous = hurts or said.hurts or as_during
    opened = jobs.add(
        during.vehicle,
        by=by,
        at=at,
        title=line,
        work=first_guess(said.kinds),
        rank=Job.Rank.SAFETY if dangerous else "",
        found_in=during,
        seen=True,
        **{**told.fields, "kinds_likely": True, "skill": skill},
    )
    Finding.objects.create(during=during, opened=opened, line=line, hurts=hurts, by=by, at=at)
    return opened

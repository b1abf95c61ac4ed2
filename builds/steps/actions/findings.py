"""Something found while doing something else becomes a job that knows where it was found."""

from datetime import datetime

from django.db import transaction

from builds.steps.actions import jobs
from builds.steps.engine.opened import HAPPENED
from builds.steps.facts.looks import for_safety
from builds.work.models.finding import Finding
from builds.work.models.job import Job
from garage.models import Membership

FIRST_GUESS = (30, 60, 120)


@transaction.atomic
def found(during: Job, line: str, *, hurts: bool, by: Membership, at: datetime) -> Job:
    """Open a job on the same car: safety when someone could get hurt or `during` is for safety, else needed.

    It touches what `during` touches, and is likely to open what that opens.
    """
    opened = jobs.add(
        during.vehicle,
        by=by,
        at=at,
        title=line,
        work=FIRST_GUESS,
        systems=list(during.systems),
        kinds=[kind for kind in during.kinds if kind not in HAPPENED],
        kinds_likely=True,
        rank=Job.Rank.SAFETY if hurts or for_safety(during) else Job.Rank.NEEDED,
        found_in=during,
    )
    Finding.objects.create(during=during, opened=opened, line=line, hurts=hurts, by=by, at=at)
    return opened

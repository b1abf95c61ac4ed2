"""Something found while doing something else becomes a job that knows where it was found."""

from datetime import datetime

from django.db import transaction

from builds.steps.actions import jobs
from builds.steps.engine.opened import HAPPENED
from builds.steps.facts.looks import for_safety
from builds.work.engine.ranks import rank_for
from builds.work.models.finding import Finding
from builds.work.models.job import Job
from garage.engine.systems_said import hurts_by_words, systems_said
from garage.models import Membership

FIRST_GUESS = (30, 60, 120)


@transaction.atomic
def found(during: Job, line: str, *, hurts: bool, by: Membership, at: datetime) -> Job:
    """Open a job on the same car: safety when someone could get hurt or `during` is for safety, else needed.

    It touches what `during` touches and what the line names, and is likely to open what `during` opens: but for
    the wheels, which are off already.
    """
    systems = list(dict.fromkeys([*during.systems, *systems_said(line)]))
    dangerous = hurts or for_safety(during) or hurts_by_words(line) or rank_for(systems) == Job.Rank.SAFETY
    opened = jobs.add(
        during.vehicle,
        by=by,
        at=at,
        title=line,
        work=FIRST_GUESS,
        systems=systems,
        kinds=[kind for kind in during.kinds if kind not in HAPPENED | {"wheel_off"}],
        kinds_likely=True,
        rank=Job.Rank.SAFETY if dangerous else Job.Rank.NEEDED,
        found_in=during,
    )
    Finding.objects.create(during=during, opened=opened, line=line, hurts=hurts, by=by, at=at)
    return opened

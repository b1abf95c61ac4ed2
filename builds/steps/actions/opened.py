"""What a finish says that was opened, and why that is less than was likely or than stood there."""

from collections.abc import Collection
from typing import Any

from builds.readings.engine.kinds_of_work import KINDS
from builds.steps.actions.jobs import refuse_less, weld_of
from builds.steps.engine.opened import WHAT_WAS_OPENED, refuse_kinds
from builds.steps.facts.looks import unread
from builds.steps.facts.opened import asks, left_unsaid, less_said
from builds.work.models.job import Job
from garage.actions.refused import Refused
from garage.engine.reasons import says_why
from garage.models import Membership


def opened(job: Job, kinds: Collection[str] | None, by: Membership) -> list[str]:
    """The kinds of work that were done; Refused where that is not said, or not his to say."""
    if kinds is None:
        if asks(job):
            raise Refused(WHAT_WAS_OPENED, "kinds")
        return list(job.kinds)
    if unknown := [kind for kind in kinds if kind not in KINDS]:
        raise Refused(f"{unknown[0]} is no kind of work.", "kinds")
    if wrong := refuse_kinds(kinds):
        raise Refused(wrong, "kinds")
    if not job.kinds_likely:
        refuse_less(job, job.systems, list(kinds), by)
    return list(kinds)


def told(job: Job, kinds: Collection[str], because: str) -> dict[str, Any]:
    """What stands on the job once its finish said that these kinds were done. Raises Refused.

    What nobody could read in its first words stays unread, whatever was done since.
    """
    less, ask = {*job.not_opened, *left_unsaid(job, kinds)} - {*kinds}, less_said(job, kinds).asks
    if ask and not says_why(because):
        raise Refused(ask, "because")
    stands = job.nothing_because if less or job.not_touched else ""
    return {
        "not_opened": [kind for kind in KINDS if kind in less],
        "nothing_because": because.strip() if ask else stands,
        "was_unread": job.was_unread or unread(job),
        "weld": weld_of(job, kinds),
    }

"""When somebody says that a step of a job was taken."""

from datetime import datetime

from builds.steps.facts.seen import seen_at
from builds.work.models.job import Job
from garage.actions.refused import Refused


def refuse_to_come(moment: datetime | None, at: datetime) -> datetime:
    if moment is not None and moment > at:
        raise Refused("That time is still to come: choose one that has passed.")
    return moment or at


def refuse_before_seen(job: Job, moment: datetime | None) -> None:
    """Nobody mended what nobody had seen: what was measured or marked before that is older than the work."""
    seen = seen_at(job) if moment is not None else None
    if moment is not None and seen is not None and moment < seen:
        raise Refused("That is before it was found or failed: choose a later time.", "moment")

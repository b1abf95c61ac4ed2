"""Readings that were the last act of a job, and since when it may have been worked on."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Max

from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.void import LAST_ACT
from builds.readings.facts.kinds import kinds_of
from builds.readings.models.reading import Reading
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import State


@dataclass(frozen=True)
class LastActs:
    """Readings (their kinds) since which a job may have been worked on, the first `at` a moment.

    `ended` is when the work was over, if nothing was done after that: not before it was put down.
    """

    kinds: tuple[ReadingKind, ...]
    at: datetime
    ended: datetime


def last_acts(job: Job, now: datetime) -> LastActs | None:
    """Those taken as its last act long ago, and since hands last went to it; None where there are none.

    Three queries, or one.
    """
    read = Reading.objects.on(job.vehicle).standing().filter(last_of=job, at__lt=now - LAST_ACT)
    taken = list(read.newest().reverse())
    if not taken:
        return None
    spans = Span.objects.filter(job=job)
    begun = spans.filter(state__in=[State.IN_HAND, State.OPEN]).aggregate(last=Max("from_at"))["last"]
    taken = [reading for reading in taken if begun is None or reading.at >= begun]
    if not taken:
        return None
    left = spans.aggregate(last=Max("until_at"))["last"]
    read, first = {reading.key for reading in taken}, taken[0].at
    kinds = tuple(kind for key, kind in kinds_of(job.vehicle.garage).items() if key in read)
    return LastActs(kinds, first, max(filter(None, [first, left])))

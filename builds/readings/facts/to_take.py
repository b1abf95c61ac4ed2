"""Which readings are to be taken: of those that a job takes, and of those that a car must have."""

from collections.abc import Collection
from datetime import datetime

from django.db.models import Max, Min

from builds.readings.engine.judge import OUT
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.void import STANDS
from builds.readings.facts.kinds import kinds_of
from builds.readings.facts.readings import readings_of
from builds.readings.models.reading import Reading
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.models import Vehicle


def to_take(job: Job, also: Collection[str] = ()) -> list[ReadingKind]:
    """Of those that the job takes, in measuring order, what was not read since hands went to it; all in `also`.

    Of a job that was opened again, since hands went to it after that. Four queries, or none.
    """
    if not job.measures:
        return []
    kinds = kinds_of(job.vehicle.garage)
    spans = Span.objects.filter(job=job)
    again = spans.filter(state=State.OPEN).aggregate(last=Max("from_at"))["last"]
    hands = spans.by_hands().filter(from_at__gte=again) if again else spans.by_hands()
    begun = hands.aggregate(first=Min("from_at"))["first"]
    read = Reading.objects.on(job.vehicle).standing()
    taken = {reading.key for reading in (read.filter(at__gte=begun) if begun else read.filter(last_of=job))}
    return [kind for key, kind in kinds.items() if key in job.measures and (key in also or key not in taken)]


def wanted_kinds(vehicle: Vehicle, at: datetime, also: Collection[str] = ()) -> list[ReadingKind]:
    """Of the readings that a car must have those that are not as they must be, and those in `also`."""
    lines = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk].lines
    return [line.kind for key, line in lines.items() if key in also or (line.required and not _holds(line))]


def _holds(line: KindLine) -> bool:
    return line.state == STANDS and line.judged != OUT and not line.only_a_note

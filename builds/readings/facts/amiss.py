"""Readings that are not as they must be, of a car and of jobs with which they were taken."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping

from django.db.models import QuerySet

from builds.readings.engine.amiss import title_of_failed, title_of_out
from builds.readings.engine.judge import OUT
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.facts.kinds import kinds_of
from builds.readings.models.reading import Reading
from builds.readings.models.target import Target
from builds.work.models.job import Job, JobQuerySet
from garage.models import Garage, Vehicle


def mends_of(vehicle: Vehicle, kind: ReadingKind) -> JobQuerySet:
    """Open jobs that mend what a reading of that kind found."""
    jobs: JobQuerySet = Job.objects.on(vehicle).open()
    return jobs.filter(title__in=[title_of_failed(kind), title_of_out(kind)])


def sets_next(reading: Reading, kind: ReadingKind) -> list[Job]:
    """Open jobs, but the one with which this was read, that set what it reads and take it anew."""
    ahead = Job.objects.filter(vehicle=reading.vehicle_id, finished_at=None).open()
    others = ahead.exclude(pk=reading.last_of_id).order_by("pk")
    return [job for job in others if kind.key in job.measures and kind.follows in voided_by(job.kinds)]


def newest_lines(vehicle: Vehicle, kinds: Mapping[str, ReadingKind]) -> dict[str, KindLine]:
    """By key of those kinds that were ever read the newest reading that stands, beside its limits; three queries."""
    newest = Reading.objects.on(vehicle).last_of_each()
    return {line.kind.key: line for line in _lines(newest.prefetch_related("values"), kinds)}


def amiss_in(garage: Garage, jobs: Iterable[Job]) -> dict[int, tuple[KindLine, ...]]:
    """Of each job (pk) what was found out of order at its end and has not been read better since."""
    measured = [job.pk for job in jobs if job.measures]
    if not measured:
        return {}
    taken = Reading.objects.standing().filter(last_of__in=measured).prefetch_related("values")
    kinds = kinds_of(garage)
    out = [line for line in _lines(taken.select_related("vehicle"), kinds) if line.judged == OUT]
    newest = {car: newest_lines(car, kinds) for car in {line.reading.vehicle for line in out}}
    amiss: dict[int, tuple[KindLine, ...]] = defaultdict(tuple)
    for line in out:
        if newest[line.reading.vehicle][line.kind.key].judged == OUT:
            amiss[line.reading.last_of_id] += (line,)
    return amiss


def _lines(taken: QuerySet[Reading], kinds: Mapping[str, ReadingKind]) -> Iterator[KindLine]:
    readings = [reading for reading in taken if reading.key in kinds]
    limits: dict[tuple[int, str], dict[str, Target]] = defaultdict(dict)
    for target in Target.objects.filter(vehicle__in={reading.vehicle_id for reading in readings}):
        limits[target.vehicle_id, target.key][target.field] = target
    for reading in readings:
        values = {value.field: value for value in reading.values.all()}
        targets = limits[reading.vehicle_id, reading.key]
        yield KindLine(kinds[reading.key], reading=reading, values=values, targets=targets)

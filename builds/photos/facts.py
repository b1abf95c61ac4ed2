"""Photos of a car, of its jobs, of what was looked at on them and of its readings, as its story takes them."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.db.models import Min

from builds.photos.engine import Shot, Shown, WorkDone
from builds.photos.models import HoldPointPhoto, JobPhoto, ReadingPhoto
from builds.readings.models.reading import Reading
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.models import Photo, Vehicle, VehiclePhoto


@dataclass(frozen=True)
class CarShots:
    """`photos` by pk; `jobs` and `readings`, by pk, are those that some of them show."""

    shots: tuple[Shot, ...]
    works: dict[Shown, WorkDone]
    photos: dict[int, Photo]
    jobs: dict[int, Job]
    readings: dict[int, Reading]


def car_shots(vehicle: Vehicle) -> CarShots:
    """Five queries, however many photos."""
    ties = list(_ties(vehicle))
    jobs = {thing.pk: thing for _, thing in ties if isinstance(thing, Job)}
    readings = {thing.pk: thing for _, thing in ties if isinstance(thing, Reading)}
    kinds = {Job: "job", Reading: "reading", Vehicle: "car"}
    shots = tuple(Shot(photo.pk, photo.at, (kinds[type(thing)], thing.pk)) for photo, thing in ties)
    return CarShots(shots, _works(jobs), {photo.pk: photo for photo, _ in ties}, jobs, readings)


def _ties(vehicle: Vehicle) -> Iterator[tuple[Photo, Vehicle | Job | Reading]]:
    """What was looked at on a job is of the job."""
    for tie in VehiclePhoto.objects.filter(of=vehicle).for_pages():
        yield tie.photo, vehicle
    for tie in JobPhoto.objects.filter(of__vehicle=vehicle).for_pages().select_related("of"):
        yield tie.photo, tie.of
    for tie in HoldPointPhoto.objects.filter(of__job__vehicle=vehicle).for_pages().select_related("of__job"):
        yield tie.photo, tie.of.job
    for tie in ReadingPhoto.objects.filter(of__vehicle=vehicle).for_pages().select_related("of"):
        yield tie.photo, tie.of


def _works(jobs: dict[int, Job]) -> dict[Shown, WorkDone]:
    begun = Span.objects.filter(job__in=list(jobs), state=State.IN_HAND).order_by().values_list("job")
    began = dict(begun.annotate(Min("from_at")))
    return {
        ("job", pk): WorkDone(min(began.get(pk, job.finished_at), job.finished_at), job.finished_at)
        for pk, job in jobs.items()
        if job.finished_at
    }

"""What photos can show: a car, a part, a job, a hold point or a reading, and their pages."""

from collections.abc import Callable
from typing import Any, NamedTuple

from django.db.models import Model, QuerySet
from django.http import Http404
from django.urls import reverse

from builds.photos.models import HoldPointPhoto, JobPhoto, ReadingPhoto
from builds.readings.models.reading import Reading
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage.http import visible
from garage.models import Membership, Photo, Vehicle, VehiclePhoto
from garage.models.photo import PhotoTie
from parts.models import Part, PartPhoto


class PhotoSubject(NamedTuple):
    """One kind of thing: its rows, the tie of its photos, its page and what it is called."""

    rows: type[Model]
    tie: type[PhotoTie]
    url: Callable[[Any], str]
    words: Callable[[Any], str] = str


KINDS = {
    "car": PhotoSubject(Vehicle, VehiclePhoto, lambda car: reverse("vehicle_page", args=[car.pk]) + "?tab=log"),
    "part": PhotoSubject(Part, PartPhoto, lambda part: reverse("part_page", args=[part.pk])),
    "job": PhotoSubject(Job, JobPhoto, lambda job: reverse("job_page", args=[job.pk])),
    "hold-point": PhotoSubject(
        HoldPoint,
        HoldPointPhoto,
        lambda point: reverse("job_page", args=[point.job_id]) + "#hold-points",
    ),
    "reading": PhotoSubject(
        Reading,
        ReadingPhoto,
        lambda reading: reverse("reading_page", args=[reading.vehicle_id, reading.key]),
        lambda reading: f"a reading of {reading.vehicle}",
    ),
}


def shown(slug: str, member: Membership, pk: int) -> tuple[PhotoSubject, Any]:
    """The thing that an address names, with its kind; 404 when there is none for `member`."""
    kind = KINDS.get(slug)
    if kind is None:
        raise Http404
    return kind, visible(kind.rows, member, pk=pk)


def photos_of(thing: Any) -> QuerySet[PhotoTie]:
    kind = next(kind for kind in KINDS.values() if isinstance(thing, kind.rows))
    return kind.tie.objects.filter(of=thing).for_pages()


def photos_within(thing: Any) -> dict[int, list[PhotoTie]]:
    """Of a job's hold points or a car's readings, by their keys."""
    rows = (
        HoldPointPhoto.objects.filter(of__job=thing)
        if isinstance(thing, Job)
        else ReadingPhoto.objects.filter(of__vehicle=thing)
    )
    ties: dict[int, list[PhotoTie]] = {}
    for tie in rows.for_pages():
        ties.setdefault(tie.of_id, []).append(tie)
    return ties


class Subject(NamedTuple):
    """What a photo shows: the thing (None for what is not there any more), in words, and the address of its page."""

    thing: Any
    words: str
    url: str


def subject_of(photo: Photo) -> Subject:
    for kind in KINDS.values():
        tie = kind.tie.objects.filter(photo=photo).select_related("of").first()
        if tie is not None:
            return Subject(tie.of, kind.words(tie.of), kind.url(tie.of))
    return Subject(None, "the garage", reverse("today"))

"""What a link shows beside how a car stands: chosen photos, and parts that are sought."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Q

from builds.needs.facts.wants import wants_of
from builds.needs.pages.needs import what_words
from builds.work.engine.open_work import Work
from builds.work.models.need import Need
from garage.models import Photo, Share, Vehicle

MOST_PHOTOS = 24


@dataclass(frozen=True)
class Sought:
    """A part that no shelf has and nobody ordered; `need` is its key."""

    need: Need
    what: str
    car: str


def cars_of(share: Share) -> list[Vehicle]:
    if share.vehicle:
        return [share.vehicle]
    if share.event is None:
        return list(Vehicle.objects.in_garage(share.garage_id).kept())
    coming = share.event.entries.coming().values("vehicle")
    return list(Vehicle.objects.in_garage(share.garage_id).filter(pk__in=coming))


def photos_of_cars(cars: Iterable[Vehicle]) -> list[Photo]:
    """The newest first: of the cars themselves and of their jobs."""
    cars = list(cars)
    ours = Q(vehiclephoto__of__in=cars) | Q(jobphoto__of__vehicle__in=cars)
    # By the garage as well: the database would go through the photos of all garages for either half of it.
    kept = Photo.objects.filter(ours, garage__in={car.garage_id for car in cars})
    return list(kept.distinct().order_by("-at", "-pk")[:MOST_PHOTOS])


def photos_shown(share: Share) -> list[Photo]:
    """Those that were chosen and still show one of these cars, the oldest first."""
    if not share.photos:
        return []
    cars = cars_of(share)
    ours = Q(vehiclephoto__of__in=cars) | Q(jobphoto__of__vehicle__in=cars)
    chosen = Photo.objects.in_garage(share.garage_id).filter(ours, pk__in=share.photos)
    return list(chosen.distinct().order_by("at", "pk"))


def sought(share: Share, work: Work) -> list[Sought]:
    if not share.parts:
        return []
    cars = {car.pk for car in cars_of(share)}
    wants = wants_of(work)
    return [
        Sought(need, what_words(need), need.job.vehicle.name)
        for need in wants.needs
        if need.job.vehicle_id in cars and wants.standing[need.pk].state == "find"
    ]

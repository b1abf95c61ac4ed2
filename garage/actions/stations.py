"""Adding, changing and removing stations."""

from django.db import transaction

from garage.engine.hours import Stretch
from garage.models import Garage, Station, StationHours
from garage.models.slugs import free_slug


def _set_week(station: Station, week: list[Stretch]) -> None:
    station.weekly_hours.all().delete()
    StationHours.objects.bulk_create(
        StationHours(station=station, weekday=stretch.weekday, from_minute=stretch.since, until_minute=stretch.until)
        for stretch in week
    )


@transaction.atomic
def add(garage: Garage, *, name: str, capacity: int, stands: bool, always_open: bool, week: list[Stretch]) -> Station:
    slug = free_slug(name, Station.objects.in_garage(garage))
    station = Station.objects.create(
        garage=garage, slug=slug, name=name, capacity=capacity, stands=stands, always_open=always_open
    )
    _set_week(station, week)
    return station


@transaction.atomic
def change(station: Station, *, name: str, capacity: int, stands: bool, always_open: bool, week: list[Stretch]) -> None:
    station.name, station.capacity, station.stands, station.always_open = name, capacity, stands, always_open
    station.save()
    _set_week(station, week)


@transaction.atomic
def delete(station: Station) -> None:
    station.delete()

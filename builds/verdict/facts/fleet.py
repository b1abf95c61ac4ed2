"""What the verdict is told of cars: loaded, and remembered until somebody writes or the clock changes it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Min, Q

from builds.readings.models.age import ReadingAge
from builds.readings.models.reading import Reading
from builds.verdict.engine import Facts
from builds.verdict.facts.car import CarBook, car_facts
from garage.facts.entries import entries_ahead, first_of_each_car, kept_ahead
from garage.models import Entry, Event, Garage, Vehicle
from garage.remembered import notes_of

# A car and the entry that it is judged for, by their pks.
Of = tuple[int, int | None]
NOTE = "verdict"


@dataclass(frozen=True)
class KeptCars:
    """Every car kept, and by its pk of its `entries` the nearest that is not over, with event and car."""

    cars: tuple[Vehicle, ...]
    entries: dict[int, Entry]


@dataclass
class ToldCars:
    """What was loaded `since`; from `until` on the clock changes it."""

    since: datetime
    until: datetime
    cars: KeptCars | None = None
    facts: dict[Of, Facts] = field(default_factory=dict)
    book: CarBook = field(default_factory=CarBook)


def kept_cars(garage: Garage, at: datetime) -> KeptCars:
    """Two queries, or none where it is remembered."""
    told = _told(garage, at)
    if told is None:
        return _cars(garage, at)
    if told.cars is None:
        told.cars = _cars(garage, at)
    return told.cars


def next_entries(garage: Garage, cars: Iterable[Vehicle], at: datetime) -> dict[int, Entry]:
    """The next entry of each car (pk) that has one, with its event."""
    first, asked = first_of_each_car(entries_ahead(garage, at)), {car.pk for car in cars}
    return {pk: entry for pk, entry in first.items() if pk in asked}


def facts_of(
    garage: Garage,
    at: datetime,
    vehicles: Iterable[Vehicle],
    entries: dict[int, Entry] | None = None,
) -> dict[int, Facts]:
    """What is known of each car, by its pk: for these entries, else for its next one."""
    cars = list(vehicles)
    entries = next_entries(garage, cars, at) if entries is None else entries
    return known_facts(garage, at, cars, entries)


def known_facts(
    garage: Garage, at: datetime, cars: Iterable[Vehicle], entries: Mapping[int, Entry]
) -> dict[int, Facts]:
    """Of each car (pk) for its entry (by the car's pk too): the whole fleet is loaded once, where it is remembered."""
    told, asked = _told(garage, at), list(cars)
    if told is None:
        return car_facts(garage, at, asked, entries)
    of = {car.pk: _of(car, entries) for car in asked}
    if any(known not in told.facts for known in of.values()):
        if not told.facts:
            fleet = kept_cars(garage, at)
            _load(garage, at, told, fleet.cars, fleet.entries)
        _load(garage, at, told, asked, entries)
    return {car.pk: replace(told.facts[of[car.pk]], at=at) for car in asked}


def _load(garage: Garage, at: datetime, told: ToldCars, cars: Iterable[Vehicle], entries: Mapping[int, Entry]) -> None:
    """Of these cars what is not there yet."""
    if left := [car for car in cars if _of(car, entries) not in told.facts]:
        loaded = car_facts(garage, at, left, entries, told.book)
        told.facts |= {_of(car, entries): loaded[car.pk] for car in left}
        told.until = min(told.until, *(_until(facts, told.until) for facts in loaded.values()))


def _until(facts: Facts, until: datetime) -> datetime:
    """What cures is over by itself, where it is warm enough; where the clock was wrong, it is asked each time."""
    return facts.at if facts.follows_clock() else min([until, *(cure.until for cure in facts.cures if cure.until)])


def _of(car: Vehicle, entries: Mapping[int, Entry]) -> Of:
    return car.pk, entries[car.pk].pk if car.pk in entries else None


def _told(garage: Garage, at: datetime) -> ToldCars | None:
    """What is remembered and still so by the clock, to be read and added to; None where nothing may be."""
    notes = notes_of(garage)
    if notes is None:
        return None
    told: ToldCars | None = notes.get(NOTE)
    if told is None or not told.since <= at < told.until:
        told = notes[NOTE] = ToldCars(at, changes_at(garage, at))
    return told


def _cars(garage: Garage, at: datetime) -> KeptCars:
    entries = first_of_each_car(kept_ahead(garage, at))
    return KeptCars(tuple(Vehicle.objects.in_garage(garage).kept()), entries)


def changes_at(garage: Garage, at: datetime) -> datetime:
    """The first moment after this one at which the clock alone changes what is known of a car.

    The day does, by which gear is judged and moments are told; an event's end, from which its cars may
    have run and the next one counts; and a reading's becoming too old. Two queries.
    """
    zone = ZoneInfo(garage.time_zone)
    tomorrow = at.astimezone(zone).date() + timedelta(days=1)
    edges = [datetime(tomorrow.year, tomorrow.month, tomorrow.day, tzinfo=zone)]
    edges += Event.objects.in_garage(garage).filter(ends_at__gt=at).aggregate(end=Min("ends_at")).values()
    ages = [timedelta(days=days) for days in ReadingAge.objects.in_garage(garage).values_list("days", flat=True)]
    if ages:
        named = {"of_" + str(age.days): age for age in ages}
        oldest = {name: Min("at", filter=Q(at__gte=at - age)) for name, age in named.items()}
        taken = Reading.objects.in_garage(garage).standing().order_by().aggregate(**oldest)
        edges += [taken[name] + age for name, age in named.items() if taken[name]]
    return min(edge for edge in edges if edge)

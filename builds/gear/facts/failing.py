"""The gear of each car that does not pass on the day, and what the car must have and lacks."""

from collections.abc import Mapping
from datetime import datetime

from builds.gear.engine import GearFact, gear_fact, missing_gear
from builds.gear.facts.book import GearBook, gear_book
from builds.work.facts.runs import RunsByCar
from garage.models import Entry, Garage, NeededGear, Vehicle

FactsByCar = dict[int, tuple[GearFact, ...]]


def gear_facts(
    garage: Garage, cars: list[Vehicle], at: datetime, entries: Mapping[int, Entry], runs: RunsByCar | None = None
) -> FactsByCar:
    """Of each car (pk) that has its gear on record, those that are not as they must be.

    A car left out has nothing on record, which is not known and therefore not fit. `entries` are
    the cars' next entries with their event. What a car carries is judged even where nobody has
    said which gear it must have; such a car is left out once all that it carries passes.
    """
    needed = dict(NeededGear.objects.filter(vehicle__in=cars).values_list("vehicle_id", "kinds"))
    book = gear_book(garage, at, entries.values(), runs)
    by_car = {}
    for car in cars:
        kinds = needed.get(car.pk, [])
        failing = _failing(book, car, entries.get(car.pk), kinds)
        if failing or kinds:
            by_car[car.pk] = failing
    return by_car


def _failing(book: GearBook, car: Vehicle, entry: Entry | None, needed: list[str]) -> tuple[GearFact, ...]:
    counted = book.counted(car.pk, needed)
    judged = sorted(((gear, book.judge(gear, entry)) for gear in counted), key=lambda pair: pair[1].order)
    there = {gear.kind for gear in counted}
    return tuple(
        gear_fact(gear.pk, gear.name, gear.kind, standing, book.why_struck(gear))
        for gear, standing in judged
        if not standing.passes
    ) + tuple(missing_gear(kind) for kind in needed if kind not in there)

"""What the verdict is told of gear, car by car."""

from datetime import datetime

from builds.gear.facts.gear import GearBook, gear_book
from builds.verdict.engine import GearFact
from garage.engine.gear import KINDS
from garage.models import Entry, Garage, NeededGear, Vehicle

Found = dict[int, tuple[GearFact, ...]]


def gear_facts(garage: Garage, cars: list[Vehicle], at: datetime, entries: dict[int, Entry]) -> Found:
    """Of each car (pk) that has its gear on record, those that are not as they must be.

    A car left out has nothing on record, which is not known and therefore not fit. `entries` are
    the cars' next entries with their event. What a car carries is judged even where nobody has
    said which gear it must have; such a car is left out once all that it carries passes.
    """
    needed = dict(NeededGear.objects.filter(vehicle__in=cars).values_list("vehicle_id", "kinds"))
    book = gear_book(garage, at, entries.values())
    found = {}
    for car in cars:
        facts = _facts(book, car, entries.get(car.pk), needed.get(car.pk, []))
        if facts or needed.get(car.pk):
            found[car.pk] = facts
    return found


def _facts(book: GearBook, car: Vehicle, entry: Entry | None, needed: list[str]) -> tuple[GearFact, ...]:
    counted = [gear for gear in book.of_car(car.pk) if gear.vehicle_id == car.pk or gear.kind in needed]
    judged = sorted(((gear, book.judge(gear, entry)) for gear in counted), key=lambda row: row[1].order)
    there = {gear.kind for gear in counted}
    return tuple(
        GearFact(gear.pk, gear.name, found.state, book.why_struck(gear) or found.sentence)
        for gear, found in judged
        if not found.passes
    ) + tuple(GearFact(0, KINDS[kind].label, "missing") for kind in needed if kind not in there)

"""What is known of every car that is kept."""

from dataclasses import dataclass
from datetime import datetime

from builds.verdict.engine import Facts
from builds.verdict.facts.verdict import facts_of
from garage.facts.entries import first_of_each_car
from garage.models import Entry, Garage, Vehicle


@dataclass(frozen=True)
class Fleet:
    """By the pk of the car: `facts` for its verdict, and of its `entries` the nearest that is not over."""

    garage: Garage
    at: datetime
    cars: list[Vehicle]
    entries: dict[int, Entry]
    facts: dict[int, Facts]


def fleet_of(garage: Garage, at: datetime) -> Fleet:
    """As many queries for one car as for fifty."""
    cars = list(Vehicle.objects.in_garage(garage).kept())
    upcoming = Entry.objects.in_garage(garage).upcoming(at).kept()
    entries = first_of_each_car(upcoming.select_related("event", "vehicle"))
    return Fleet(garage, at, cars, entries, facts_of(garage, at, cars, entries))

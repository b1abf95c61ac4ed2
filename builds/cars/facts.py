"""What is known of every car that is kept."""

from dataclasses import dataclass
from datetime import datetime

from builds.verdict.engine import Facts
from builds.verdict.facts import fleet
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
    """As many queries for one car as for fifty, none where it is remembered."""
    known = fleet.kept_cars(garage, at)
    facts = fleet.known_facts(garage, at, known.cars, known.entries)
    return Fleet(garage, at, list(known.cars), known.entries, facts)

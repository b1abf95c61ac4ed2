"""What the verdict is told of parts, car by car."""

from datetime import datetime

from builds.engine.verdict import PartFact
from garage.models import Entry, Garage, Vehicle

Found = dict[int, tuple[PartFact, ...]]


def parts_facts(
    garage: Garage, cars: list[Vehicle], at: datetime, entries: dict[int, Entry]
) -> Found:
    """Of each car (pk) that has its parts on record, those that are not as they must be.

    A car left out has nothing on record, which is not known and therefore not fit. `entries` are
    the cars' next entries with their event.
    """
    return {}

"""What the verdict is told of scrutineering items, car by car."""

from datetime import datetime

from builds.engine.verdict import CheckFact
from garage.models import Entry, Garage, Vehicle

Found = dict[int, tuple[CheckFact, ...]]


def checks_facts(
    garage: Garage, cars: list[Vehicle], at: datetime, entries: dict[int, Entry]
) -> Found:
    """Of each car (pk) with a list on record, the items that are not ticked.

    A car left out has nothing on record, which is not known and therefore not fit. `entries` are
    the cars' next entries with their event.
    """
    return {}

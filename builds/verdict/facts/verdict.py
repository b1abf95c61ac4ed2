"""The verdicts of any cars of a garage."""

from collections.abc import Iterable
from datetime import datetime

from builds.verdict.engine import Verdict, verdict
from builds.verdict.facts.fleet import facts_of
from garage.models import Entry, Garage, Vehicle


def verdicts(
    garage: Garage,
    at: datetime,
    vehicles: Iterable[Vehicle] | None = None,
    entries: dict[int, Entry] | None = None,
) -> dict[int, Verdict]:
    """The verdict of each car by its pk: of those given, else of every car kept."""
    cars = Vehicle.objects.in_garage(garage).kept() if vehicles is None else vehicles
    return {pk: verdict(facts) for pk, facts in facts_of(garage, at, cars, entries).items()}


def verdict_of(vehicle: Vehicle, at: datetime, entry: Entry | None = None) -> Verdict:
    """For that entry, else for the car's next one."""
    entries = {vehicle.pk: entry} if entry else None
    return verdicts(vehicle.garage, at, [vehicle], entries)[vehicle.pk]

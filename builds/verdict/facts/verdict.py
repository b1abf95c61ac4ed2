"""Facts for the verdict of any cars of a garage, and the verdicts."""

from collections.abc import Iterable
from datetime import datetime

from builds.verdict.engine import Facts, Verdict, verdict
from builds.verdict.facts.fleet import known_facts
from garage.models import Entry, Garage, Vehicle


def next_entries(cars: list[Vehicle], at: datetime) -> dict[int, Entry]:
    """The next entry of each car (pk) that has one, with its event."""
    rows = Entry.objects.filter(vehicle__in=cars).upcoming(at).select_related("event")
    return {entry.vehicle_id: entry for entry in reversed(rows)}


def facts_of(
    garage: Garage,
    at: datetime,
    vehicles: Iterable[Vehicle],
    entries: dict[int, Entry] | None = None,
) -> dict[int, Facts]:
    """What is known of each car, by its pk: for these entries, else for its next one."""
    cars = list(vehicles)
    entries = next_entries(cars, at) if entries is None else entries
    return known_facts(garage, at, cars, entries)


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

"""Entries of cars for events, car by car."""

from collections.abc import Iterable

from garage.models import Entry


def first_of_each_car(entries: Iterable[Entry]) -> dict[int, Entry]:
    """Of entries in order the first of each car, by the car's pk."""
    first: dict[int, Entry] = {}
    for entry in entries:
        first.setdefault(entry.vehicle_id, entry)
    return first

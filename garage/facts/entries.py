"""Entries of cars for events, and the nights of these."""

from collections.abc import Iterable
from datetime import datetime

from garage.models import Entry, Garage, Night
from garage.remembered import remembered_ahead


def entries_ahead(garage: Garage, at: datetime) -> list[Entry]:
    """Those whose event is not over, with event, car and what takes it there, the next first; of cars that are gone
    too. One query, none where it is remembered.
    """
    rows = Entry.objects.in_garage(garage).upcoming(at).select_related("event", "vehicle", "tow")
    return remembered_ahead(garage, "entries_ahead", at, lambda: list(rows.all()), lambda entry: entry.event.ends_at)


def kept_ahead(garage: Garage, at: datetime) -> list[Entry]:
    """As `entries_ahead`, of cars that are still here."""
    return [entry for entry in entries_ahead(garage, at) if entry.vehicle.gone_at is None]


def nights_ahead(garage: Garage, at: datetime) -> list[Night]:
    """Those whose morning has still to come, with their events, the next first; no query where it is remembered."""
    rows = Night.objects.in_garage(garage).ahead(at).select_related("event")
    return remembered_ahead(garage, "nights_ahead", at, lambda: list(rows.all()), lambda night: night.due_at)


def first_of_each_car(entries: Iterable[Entry]) -> dict[int, Entry]:
    """Of entries in order the first of each car, by the car's pk."""
    first: dict[int, Entry] = {}
    for entry in entries:
        first.setdefault(entry.vehicle_id, entry)
    return first

"""How cars get to the events ahead, from rows, and how what takes them stands."""

from datetime import datetime

from builds.travel.engine import Ride
from builds.verdict.engine import Verdict, verdict
from builds.verdict.facts.verdict import facts_of
from garage.models import Entry, Garage, Vehicle


def ride_of(entry: Entry) -> Ride:
    """Event, vehicle and `tow` attached."""
    return Ride(
        entry=entry.pk,
        event=entry.event_id,
        event_name=entry.event.name,
        car=entry.vehicle_id,
        car_name=entry.vehicle.name,
        leaves=entry.event.due_at,
        back=entry.event.back_at,
        how=entry.travels,
        taker=entry.tow_id,
        taker_name=entry.tow.name if entry.tow else "",
        trailer=entry.trailer,
    )


def rides_ahead(garage: Garage, at: datetime) -> list[Entry]:
    """The entries of events that are not over for which it is said how the car gets there."""
    rows = Entry.objects.in_garage(garage).upcoming(at).kept().exclude(travels="")
    return list(rows.select_related("event", "vehicle", "tow"))


def verdicts_on_the_way(garage: Garage, entries: list[Entry], at: datetime) -> dict[int, Verdict]:
    """By vehicle (pk) the verdicts on what takes these cars, and on those that are driven; no query without any."""
    asked = {vehicle.pk: vehicle for entry in entries for vehicle in _asked(entry)}
    facts = facts_of(garage, at, asked.values()) if asked else {}
    return {pk: verdict(known) for pk, known in facts.items()}


def _asked(entry: Entry) -> list[Vehicle]:
    """The vehicles whose state counts on the way."""
    if entry.travels == Entry.Travels.DRIVEN:
        return [entry.vehicle]
    return [entry.tow] if entry.tow else []

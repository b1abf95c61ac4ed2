"""A car changes with what hangs on it, and leaves only when nothing waits for it."""

from datetime import datetime
from typing import Any

from django.db import transaction

from builds.readings.actions.usual import take_usual
from builds.work.facts.strips import stripped_until
from builds.work.models.job import Job
from garage.actions import vehicles
from garage.actions.refused import Refused
from garage.models import Entry, Garage, Membership, Vehicle
from parts.actions.places import rename_car


@transaction.atomic
def hang_up(garage: Garage, *, by: Membership, at: datetime, usual: bool = False, **fields: Any) -> Vehicle:
    """A new car; with the `usual` readings, it must have those within the limits that are offered for them."""
    vehicle = vehicles.add(garage, **fields)
    if usual:
        take_usual(vehicle, by=by, at=at)
    return vehicle


@transaction.atomic
def change(vehicle: Vehicle, **fields: Any) -> None:
    """What is on a car is at a place of the same name."""
    vehicles.change(vehicle, **fields)
    rename_car(vehicle)


@transaction.atomic
def stand(vehicle: Vehicle, state: str, *, at: datetime) -> None:
    """How it stands, said by hand. Raises Refused: a stripped car is not driveable before it is put back."""
    last = stripped_until(vehicle, at)
    if state == Vehicle.State.DRIVEABLE and last:
        raise Refused(f"{vehicle} is stripped until “{last}” is done: it cannot be driven before that.")
    vehicles.change(vehicle, state=state, stood="")


@transaction.atomic
def let_go(vehicle: Vehicle, *, at: datetime) -> None:
    """Off the key board. Raises Refused."""
    job = Job.objects.on(vehicle).in_hand().first()
    if job:
        raise Refused(f"“{job}” is in hand: put it down or finish it first.")
    entry = Entry.objects.filter(vehicle=vehicle).upcoming(at).select_related("event").first()
    if entry:
        raise Refused(f"{vehicle} is entered for {entry.event}: take it out of there first.")
    taken = Entry.objects.filter(tow=vehicle).upcoming(at).select_related("event", "vehicle").first()
    if taken:
        raise Refused(f"{vehicle} takes {taken.vehicle} to {taken.event}: say first what else takes it there.")
    vehicles.let_go(vehicle, at=at)

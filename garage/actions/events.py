"""Events, and the cars entered for them."""

from typing import Any

from django.db import transaction

from garage.actions import gear
from garage.actions.refused import Refused
from garage.models import Entry, Event, Garage, Vehicle


@transaction.atomic
def add(garage: Garage, **fields: Any) -> Event:
    """A new event; it judges gear as its organiser's last one did, until somebody says more."""
    event = Event.objects.create(garage=garage, **fields)
    gear.copy_rules(event)
    return event


def change(booked: Event | Entry, **fields: Any) -> None:
    for name, value in fields.items():
        setattr(booked, name, value)
    booked.save()


@transaction.atomic
def enter(event: Event, vehicle: Vehicle, *, weight: int) -> Entry:
    if event.garage_id != vehicle.garage_id:
        raise Refused("The car must be in the same garage.")
    entry, new = Entry.objects.get_or_create(event=event, vehicle=vehicle, defaults={"weight": weight})
    if not new and entry.withdrawn_at is None:
        raise Refused(f"{vehicle} is entered already.")
    if not new:
        change(entry, weight=weight, withdrawn_at=None)
    return entry

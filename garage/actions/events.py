"""Events, and the cars entered for them."""

from collections.abc import Iterable
from typing import Any

from django.db import transaction

from garage.actions import gear
from garage.actions.refused import Refused
from garage.models import Entry, Event, Garage, Membership, Vehicle


@transaction.atomic
def add(garage: Garage, *, people: Iterable[Membership] = (), **fields: Any) -> Event:
    """A new event; it judges gear as its organiser's last one did, until somebody says more."""
    event = Event.objects.create(garage=garage, **fields)
    event.people.set(people)
    gear.copy_rules(event)
    return event


@transaction.atomic
def change(event: Event, *, people: Iterable[Membership] | None = None, **fields: Any) -> None:
    """`people` None leaves who goes as it is."""
    _write(event, fields)
    if people is not None:
        event.people.set(people)


def change_entry(entry: Entry, **fields: Any) -> None:
    _write(entry, fields)


def _write(booked: Event | Entry, fields: dict[str, Any]) -> None:
    for name, value in fields.items():
        setattr(booked, name, value)
    booked.save()


@transaction.atomic
def enter(event: Event, vehicle: Vehicle, *, weight: int, **how: Any) -> Entry:
    """`how` it gets there: `travels`, `tow`, `trailer`."""
    if event.garage_id != vehicle.garage_id:
        raise Refused("The car must be in the same garage.")
    entry, new = Entry.objects.get_or_create(event=event, vehicle=vehicle, defaults={"weight": weight, **how})
    if not new and entry.withdrawn_at is None:
        raise Refused(f"{vehicle} is entered already.")
    if not new:
        change_entry(entry, weight=weight, withdrawn_at=None, **how)
    return entry

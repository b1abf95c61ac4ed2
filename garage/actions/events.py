"""Events, and the cars entered for them."""

from typing import Any

from django.db import transaction

from garage.actions.refused import Refused
from garage.models import Entry, Event, Garage, Vehicle


def add(garage: Garage, **fields: Any) -> Event:
    return Event.objects.create(garage=garage, **fields)


def change(event: Event, **fields: Any) -> None:
    for name, value in fields.items():
        setattr(event, name, value)
    event.save()


@transaction.atomic
def enter(event: Event, vehicle: Vehicle, *, weight: int) -> Entry:
    if event.garage_id != vehicle.garage_id:
        raise Refused("The car must be in the same garage.")
    entry, new = Entry.objects.get_or_create(
        event=event, vehicle=vehicle, defaults={"weight": weight}
    )
    if not new:
        raise Refused(f"{vehicle} is entered already.")
    return entry

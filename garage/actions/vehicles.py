"""Cars coming, changing and going."""

from datetime import datetime
from typing import Any

from garage.models import Garage, Vehicle


def add(garage: Garage, **fields: Any) -> Vehicle:
    """With a tape of its own, where no colour is said."""
    fields.setdefault("tape", Vehicle.objects.in_garage(garage).kept().free_tape())
    return Vehicle.objects.create(garage=garage, **fields)


def change(vehicle: Vehicle, **fields: Any) -> None:
    for name, value in fields.items():
        setattr(vehicle, name, value)
    vehicle.save()


def let_go(vehicle: Vehicle, *, at: datetime) -> None:
    """Off the key board; its history stays."""
    change(vehicle, gone_at=at)


def bring_back(vehicle: Vehicle) -> None:
    change(vehicle, gone_at=None)

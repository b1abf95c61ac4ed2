"""Addresses of readings, and one row of each thing that they name."""

from garage.models import Vehicle
from tests.builds.readings.reading_kit import take
from tests.factories import VehicleFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "reading_list": ("measured", "READS", "read"),
    "reading_page": ("measured_kind", "READS", "read"),
    "reading_compare": ("measured", "READS", "read"),
    "reading_add": ("measured_kind", "WORKS", "form"),
    "reading_many": ("measured", "WORKS", "form"),
    "reading_ages": ("", "ARRANGES_OWN", "form"),
    "reading_strike": ("reading", "WORKS", "form"),
    "reading_kind_add": ("measured", "WORKS", "form"),
    "target_edit": ("measured_kind", "ARRANGES", "form"),
    "target_offers": ("measured", "ARRANGES", "form"),
    "required_edit": ("measured", "ARRANGES", "form"),
}


def rows(cast):
    car: Vehicle = VehicleFactory(garage=cast.garage)
    reading = take(car, "camber", cast.owner)
    return {"measured": car.pk, "measured_kind": (car.pk, "camber"), "reading": reading.pk}

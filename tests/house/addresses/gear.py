"""Addresses of dated gear, and one row of each thing that they name."""

from garage.models import Gear
from tests.factories import NOW, VehicleFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "gear_list": ("", "READS_OWN", "read"),
    "gear_add": ("", "WORKS_OWN", "form"),
    "gear_page": ("gear", "READS", "read"),
    "gear_edit": ("gear", "WORKS", "form"),
    "gear_retire": ("gear", "WORKS", "form"),
    "gear_strike": ("gear", "WORKS", "form"),
    "gear_life": ("gear", "WORKS", "form"),
    "gear_renew": ("gear", "WORKS", "send"),
    "gear_pass": ("gear", "ARRANGES", "form"),
    "gear_rules": ("event", "ARRANGES", "form"),
    "gear_needed": ("vehicle", "ARRANGES", "form"),
}


def rows(cast):
    car = VehicleFactory(garage=cast.garage)
    gear = Gear.objects.create(garage=cast.garage, vehicle=car, kind="belts", name="Belts", made_at=NOW)
    return {"gear": gear.pk}

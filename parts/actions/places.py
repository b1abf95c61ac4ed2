"""Places: the ones every garage has, and codes that a label can carry."""

import secrets

from garage.models import Garage, Vehicle
from parts.models import Place

# Read aloud and typed by hand: no I, O, 0 or 1.
ALPHABET = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
HOUSE = {
    "bench": "the bench",
    "repair": "away for repair",
    "scrap": "the scrap",
    "supplier": "the supplier",
    "counted": "the stock-take",
}


def new_code() -> str:
    return "".join(secrets.choice(ALPHABET) for _ in range(10))


def house_place(garage: Garage, kind: str) -> Place:
    """The one place of its kind that every garage has: supplier, scrap, bench, repair, count."""
    place, _ = Place.objects.get_or_create(
        garage=garage,
        kind=kind,
        defaults={"name": HOUSE[kind], "code": new_code(), "walk_order": 9000},
    )
    return place


def car_place(vehicle: Vehicle) -> Place:
    """The place that a car is; its name follows the car's."""
    place, _ = Place.objects.get_or_create(
        vehicle=vehicle,
        defaults={
            "garage": vehicle.garage,
            "kind": Place.Kind.CAR,
            "name": vehicle.name,
            "code": new_code(),
            "walk_order": 8000,
        },
    )
    return place


def rename_car(vehicle: Vehicle) -> None:
    Place.objects.filter(vehicle=vehicle).update(name=vehicle.name)


def someone_place(garage: Garage, name: str) -> Place:
    """With whom a part is; the same name in other letters is the same person."""
    rows = Place.objects.in_garage(garage).filter(kind=Place.Kind.SOMEONE)
    return rows.filter(name__iexact=name).first() or Place.objects.create(
        garage=garage, kind=Place.Kind.SOMEONE, name=name, code=new_code(), walk_order=9500
    )

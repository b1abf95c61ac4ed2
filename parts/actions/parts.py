"""Writing parts and places down."""

from datetime import datetime
from typing import Any

from django.db import transaction

from garage.actions.refused import Refused
from garage.models import Garage
from parts.actions.places import new_code
from parts.models import Balance, Part, Place


@transaction.atomic
def add(garage: Garage, *, at: datetime, **fields: Any) -> Part:
    return Part.objects.create(garage=garage, code=new_code(), made_at=at, **fields)


@transaction.atomic
def change(part: Part, **fields: Any) -> None:
    """What a part is may change; whether it is one of a kind only while there is one at most."""
    if fields.get("single") and not part.single:
        inside = Balance.objects.filter(part=part, outside=False).exclude(quantity=0)
        if sum(inside.values_list("quantity", flat=True)) > 1:
            raise Refused(f"There is more than one of {part}.")
    for name, value in fields.items():
        setattr(part, name, value)
    part.save()


@transaction.atomic
def add_place(garage: Garage, *, kind: str, name: str, walk_order: int) -> Place:
    if Place.objects.in_garage(garage).filter(kind=kind, name__iexact=name).exists():
        raise Refused(f"There is a {name} already.")
    return Place.objects.create(
        garage=garage, code=new_code(), kind=kind, name=name, walk_order=walk_order
    )


@transaction.atomic
def change_place(place: Place, *, name: str, walk_order: int) -> None:
    others = Place.objects.in_garage(place.garage_id).filter(kind=place.kind, name__iexact=name)
    if others.exclude(pk=place.pk).exists():
        raise Refused(f"There is a {name} already.")
    place.name, place.walk_order = name, walk_order
    place.save()

"""Writing parts and places down."""

from datetime import datetime
from typing import Any

from django.db import transaction

from garage.access import OWNER
from garage.actions.refused import Refused
from garage.engine.systems import SAFETY_SYSTEMS, SYSTEM_LABELS
from garage.engine.systems_said import systems_said
from garage.models import Garage, Membership
from parts.actions.places import new_code
from parts.models import Balance, Move, Part, Place


@transaction.atomic
def add(garage: Garage, *, at: datetime, **fields: Any) -> Part:
    return Part.objects.create(garage=garage, code=new_code(), made_at=at, **fields)


def _refuse_better(part: Part, condition: str, by: Membership) -> None:
    """As fitting it is refused or wants a reason, what lives hang on is not good again by anybody's word."""
    if condition in Part.DOUBTED or part.condition not in Part.DOUBTED or by.role == OWNER:
        return
    if not SAFETY_SYSTEMS.isdisjoint(part.touches):
        raise Refused(f"Only the owner says that {part} is good again.", "condition")


def _refuse_of_less(part: Part, fields: dict[str, Any], by: Membership) -> None:
    """What is on a car, or in doubt, is not something else that hurts nobody by another name."""
    systems, name = fields.get("systems", part.systems), fields.get("name", part.name)
    touches = tuple(systems) or systems_said(name)
    gone = [SYSTEM_LABELS[slug] for slug in part.touches if slug in SAFETY_SYSTEMS and slug not in touches]
    if by.role == OWNER or not gone:
        return
    on_car = Balance.objects.filter(part=part, place__kind=Place.Kind.CAR, quantity__gt=0)
    if part.condition in Part.DOUBTED or on_car.exists():
        field = "systems" if part.systems else "name"
        raise Refused(f"Only the owner says that {part} is no part of this: {', '.join(gone)}.", field)


@transaction.atomic
def change(part: Part, *, by: Membership, at: datetime, **fields: Any) -> None:
    """What a part is may change; not its unit once it was moved, nor two into one of a kind."""
    Part.objects.select_for_update().get(pk=part.pk)
    condition = fields.get("condition", part.condition)
    _refuse_better(part, condition, by)
    _refuse_of_less(part, fields, by)
    if condition != part.condition:
        fields |= {"condition_at": at, "condition_by": by}
    if fields.get("unit", part.unit) != part.unit and Move.objects.of(part).exists():
        raise Refused(f"{part} was moved already: its unit stays. Write it down anew.", "unit")
    if fields.get("single") and not part.single:
        inside = Balance.objects.filter(part=part, outside=False)
        if sum(inside.values_list("quantity", flat=True)) > 1:
            raise Refused(f"There is more than one of {part}.", "single")
    for name, value in fields.items():
        setattr(part, name, value)
    part.save(update_fields=list(fields))


def _refuse_twin(garage_id: int, kind: str, name: str, but: int | None = None) -> None:
    others = Place.objects.in_garage(garage_id).filter(kind=kind, name__iexact=name)
    if others.exclude(pk=but).exists():
        raise Refused(f"There is a {name} already.")


@transaction.atomic
def add_place(garage: Garage, *, kind: str, name: str, walk_order: int) -> Place:
    Garage.objects.select_for_update().get(pk=garage.pk)  # two of one name at the same moment
    _refuse_twin(garage.pk, kind, name)
    return Place.objects.create(garage=garage, code=new_code(), kind=kind, name=name, walk_order=walk_order)


@transaction.atomic
def change_place(place: Place, *, name: str, walk_order: int) -> None:
    Garage.objects.select_for_update().get(pk=place.garage_id)
    _refuse_twin(place.garage_id, place.kind, name, place.pk)
    place.name, place.walk_order = name, walk_order
    place.save(update_fields=["name", "walk_order"])

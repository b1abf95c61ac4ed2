"""Sums kept on a car with the dimensions that they ask for, and taken off it again."""

from collections.abc import Mapping
from datetime import datetime

from django.core.exceptions import ValidationError
from django.db import transaction

from builds.bench.dimensions import DIMENSIONS, dimension_of
from builds.bench.frame.read import micrometres_of, read, work_out
from builds.bench.frame.say import answer_said
from builds.bench.frame.sums import Sum
from builds.sums.facts.car import OF_VEHICLE, CarFigure, car_figures
from builds.sums.models import Dimension, KeptSum
from garage.actions.hands import work_or_refuse
from garage.actions.refused import Refused
from garage.engine.said import says_unit
from garage.models import Membership, Vehicle


@transaction.atomic
def keep(vehicle: Vehicle, asked: Sum, typed: Mapping[str, str], *, by: Membership, at: datetime) -> KeptSum:
    """What was typed and what comes of it, worked out here again; Refused where nothing comes of it."""
    work_or_refuse(by, vehicle)
    units = vehicle.garage.units
    worked, errors = work_out(asked, typed, units)
    if worked is None:
        raise Refused(next(iter(errors.values())))
    kept = KeptSum.objects.create(
        vehicle=vehicle,
        name=asked.slug,
        units=units,
        typed={ask.slug: typed[ask.slug].strip() for ask in asked.asks if typed.get(ask.slug, "").strip()},
        said=[[answer.label, answer_said(answer, units), answer.slug] for answer in worked.answers],
        warnings=list(worked.warnings),
        by=by,
        at=at,
    )
    measure(kept, asked)
    return kept


def measure(kept: KeptSum, asked: Sum) -> None:
    """What was typed of the car's dimensions is kept once, with who measured it; what the car has stays as it was."""
    texts = read(asked, kept.typed, kept.units).texts
    known = car_figures(kept.vehicle, asked, texts, kept.at)
    for ask in asked.asks:
        slug, text = dimension_of(ask, texts), kept.typed.get(ask.slug, "")
        if not slug or not text or _stands(known.get(ask.slug), text, kept.units):
            continue
        Dimension.objects.create(
            vehicle=kept.vehicle, figure=slug, typed=text, units=kept.units, by=kept.by, at=kept.at
        )
        if slug in OF_VEHICLE:
            setattr(kept.vehicle, OF_VEHICLE[slug], micrometres_of(text, kept.units))
            _refuse_impossible(kept.vehicle, slug)
            kept.vehicle.save(update_fields=[OF_VEHICLE[slug]])


def _refuse_impossible(vehicle: Vehicle, slug: str) -> None:
    """A sum works with any length, a car has one within the bounds of its row."""
    try:
        vehicle.validate_constraints()
    except ValidationError:
        raise Refused(f"No car has that for its {DIMENSIONS[slug].label.lower()}: look at it again.") from None


def _stands(known: CarFigure | None, text: str, units: str) -> bool:
    """Whether that is what the car has; a figure with its unit is the same in any garage."""
    if known is None or known.changed or known.typed != text:
        return False
    return known.units == units or says_unit(text)


def drop(kept: KeptSum) -> None:
    """It was worked out from what was typed, and can be again; what was measured for it stays."""
    kept.delete()

"""Sums kept on a car, and taken off it again."""

from collections.abc import Mapping
from datetime import datetime

from builds.bench.frame.read import work_out
from builds.bench.frame.say import answer_said
from builds.bench.frame.sums import Sum
from builds.sums.models import KeptSum
from garage.actions.refused import Refused
from garage.models import Membership, Vehicle


def keep(vehicle: Vehicle, asked: Sum, typed: Mapping[str, str], *, by: Membership, at: datetime) -> KeptSum:
    """What was typed and what comes of it, worked out here again; Refused where nothing comes of it."""
    units = vehicle.garage.units
    worked, errors = work_out(asked, typed, units)
    if worked is None:
        raise Refused(next(iter(errors.values())))
    return KeptSum.objects.create(
        vehicle=vehicle,
        name=asked.slug,
        units=units,
        typed={ask.slug: typed[ask.slug].strip() for ask in asked.asks if typed.get(ask.slug, "").strip()},
        said=[[answer.label, answer_said(answer, units)] for answer in worked.answers],
        warnings=list(worked.warnings),
        by=by,
        at=at,
    )


def drop(kept: KeptSum) -> None:
    """It was worked out from what was typed, and can be again."""
    kept.delete()

"""What readings are taken and joints torqued with, where it stands in the garage's gear with a date of its own."""

from collections.abc import Mapping
from datetime import datetime
from typing import NamedTuple
from zoneinfo import ZoneInfo

from django.db.models import F

from garage.engine.gear import AS_PRINTED, GearItem, Judged, judge
from garage.models import Garage, Gear
from garage.remembered import remembered


class Instrument(NamedTuple):
    """`until` it is in use, where that has ended."""

    item: GearItem
    until: datetime | None


def instruments_of(garage: Garage) -> dict[str, Instrument]:
    """Dated gear that belongs to no car and nobody, by its name in small letters; one query at most.

    What is out of use by now is still what was used before; of two of one name it gives way to the one in use.
    """
    return remembered(garage, "instruments", lambda: _instruments(garage))


def _instruments(garage: Garage) -> dict[str, Instrument]:
    gear = Gear.objects.in_garage(garage).filter(vehicle=None, member=None).exclude(printed_on=None)
    last = gear.order_by(F("retired_at").asc(nulls_last=True), "pk")
    return {piece.name.casefold(): Instrument(piece.item(), piece.retired_at) for piece in last}


def run_out(name: str, at: datetime, instruments: Mapping[str, Instrument], zone: ZoneInfo) -> Judged | None:
    """How an instrument stood on the day it was used, where that was out of its date."""
    used = instruments.get(name.strip().casefold())
    if used is None or (used.until and at >= used.until):
        return None
    judged = judge(used.item, AS_PRINTED, at.astimezone(zone).date())
    return judged if judged.state == "out" else None

"""What readings are taken and joints torqued with, where it stands in the garage's gear with a date of its own."""

from collections.abc import Mapping
from datetime import datetime
from zoneinfo import ZoneInfo

from garage.engine.gear import AS_PRINTED, GearItem, Judged, judge
from garage.models import Garage, Gear


def instruments_of(garage: Garage) -> dict[str, GearItem]:
    """Dated gear that belongs to no car and nobody, by its name in small letters; one query."""
    gear = Gear.objects.in_garage(garage).in_use().filter(vehicle=None, member=None).exclude(printed_on=None)
    return {piece.name.casefold(): piece.item() for piece in gear}


def run_out(name: str, at: datetime, instruments: Mapping[str, GearItem], zone: ZoneInfo) -> Judged | None:
    """How an instrument stood on the day it was used, where that was out of its date."""
    item = instruments.get(name.strip().casefold())
    if item is None:
        return None
    judged = judge(item, AS_PRINTED, at.astimezone(zone).date())
    return judged if judged.state == "out" else None

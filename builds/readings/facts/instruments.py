"""What readings are taken with, where it stands in the garage's gear with a date of its own."""

from collections.abc import Mapping
from zoneinfo import ZoneInfo

from builds.readings.models.reading import Reading
from garage.engine.gear import AS_PRINTED, GearItem, Judged, judge
from garage.models import Garage, Gear


def instruments_of(garage: Garage) -> dict[str, GearItem]:
    """Dated gear that belongs to no car and nobody, by its name in small letters; one query."""
    gear = Gear.objects.in_garage(garage).in_use().filter(vehicle=None, member=None).exclude(printed_on=None)
    return {piece.name.casefold(): piece.item() for piece in gear}


def run_out(reading: Reading, instruments: Mapping[str, GearItem], zone: ZoneInfo) -> Judged | None:
    """How its instrument stood on the day it was taken, where that was out of its date."""
    item = instruments.get(reading.instrument.strip().casefold())
    if item is None:
        return None
    judged = judge(item, AS_PRINTED, reading.at.astimezone(zone).date())
    return judged if judged.state == "out" else None

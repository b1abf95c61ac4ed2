"""What readings are taken and joints torqued with, where it stands in the garage's gear with a date of its own."""

from collections.abc import Iterable, Iterator
from datetime import date, datetime
from typing import NamedTuple
from zoneinfo import ZoneInfo

from builds.readings.engine.instruments_said import instrument_said
from garage.engine.gear import AS_PRINTED, GearItem, Judged, Printed, judge
from garage.engine.names_said import plain
from garage.models import Garage, Gear
from garage.remembered import remembered


class Instrument(NamedTuple):
    """How a piece was called and stood from `since` (when it was written down, None) `until` it was changed or went out
    of use, None while it has not."""

    name: str
    item: GearItem
    written: datetime
    since: datetime | None
    until: datetime | None


def instruments_of(garage: Garage) -> tuple[Instrument, ...]:
    """Dated gear that belongs to no car and nobody, or did before; one query at most."""
    return remembered(garage, "instruments", lambda: tuple(_spells(Gear.objects.in_garage(garage))))


def _spells(pieces: Iterable[Gear]) -> Iterator[Instrument]:
    """As each piece stands now, and as it stood before what is said of it was changed."""
    for piece in pieces:
        since = None
        for stood in piece.stood:
            until = datetime.fromisoformat(stood["until"])
            yield _spell(piece, stood, since, min(until, piece.retired_at or until))
            since = until
        if told := piece.as_instrument():
            yield _spell(piece, told, since, piece.retired_at)


def _spell(piece: Gear, told: dict[str, str], since: datetime | None, until: datetime | None) -> Instrument:
    printed = Printed(date.fromisoformat(told["printed_on"]), told["precision"], told["code"])
    item = GearItem(told["kind"], told["standard"], printed, told["meaning"])
    return Instrument(plain(told["name"]), item, piece.made_at, since, until)


def run_out(name: str, at: datetime, instruments: Iterable[Instrument], zone: ZoneInfo) -> Judged | None:
    """How an instrument stood on the day it was used, where that was out of its date.

    What is out of use by now is still what was used before. Of two of one name it may be either; one that was written
    down later was not there, unless no other was.
    """
    known = tuple(instruments)
    called = instrument_said(name, (spell.name for spell in known))
    used = [spell for spell in known if called and spell.name == called and _is_of(spell, at)]
    there = [spell for spell in used if spell.written <= at] or used
    judged = [judge(spell.item, AS_PRINTED, at.astimezone(zone).date()) for spell in there]
    return next((standing for standing in judged if standing.state == "out"), None)


def _is_of(spell: Instrument, at: datetime) -> bool:
    return (spell.since is None or spell.since <= at) and (spell.until is None or at < spell.until)

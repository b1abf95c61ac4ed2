"""Belts, helmets, extinguishers and what else has a date, judged for the event: on the day's page to be read."""

from dataclasses import dataclass
from datetime import datetime

from builds.gear.facts.book import gear_book
from builds.gear.pages import GearLine, gear_lines
from garage.engine.gear import KINDS
from garage.models import Entry, Event


@dataclass(frozen=True)
class PaddockGear:
    """Of one car that is entered, or what people wear (`whose` is then empty)."""

    whose: str
    lines: tuple[GearLine, ...]


def paddock_gear(event: Event, at: datetime) -> tuple[PaddockGear, ...]:
    """What is worst first in each; as many queries as `gear_book` takes, and one."""
    entries = list(Entry.objects.filter(event=event).kept().select_related("vehicle", "event"))
    if not entries:
        return ()
    book = gear_book(event.garage, at, entries)
    worn = [gear for gear in book.rows if gear.vehicle_id is None and KINDS[gear.kind].worn]
    groups = [
        PaddockGear(
            entry.vehicle.name,
            gear_lines(book, [gear for gear in book.rows if gear.vehicle_id == entry.vehicle_id], entry),
        )
        for entry in entries
    ]
    groups.append(PaddockGear("", gear_lines(book, worn, entries[0])))
    return tuple(group for group in groups if group.lines)

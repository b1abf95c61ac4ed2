"""Belts, helmets, extinguishers and what else has a date, judged for the event: on the day's page to be read."""

from dataclasses import dataclass

from builds.gear.facts.book import gear_book
from builds.gear.pages import GearLine, gear_lines
from builds.paddock.pages.paddock import PaddockDay
from garage.engine.gear import KINDS


@dataclass(frozen=True)
class PaddockGear:
    """Of one car that is entered, or what people wear (`whose` is then empty)."""

    whose: str
    lines: tuple[GearLine, ...]


def paddock_gear(day: PaddockDay) -> tuple[PaddockGear, ...]:
    """What is worst first in each; as many queries as `gear_book` takes."""
    entries = list(day.entries.values())
    if not entries:
        return ()
    book = gear_book(day.event.garage, day.at, entries, day.runs)
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

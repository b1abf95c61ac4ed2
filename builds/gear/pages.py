"""What the pages say of gear: all of it, one piece, a car's, an event's."""

from dataclasses import dataclass
from datetime import date, datetime

from builds.gear.facts.gear import GearBook, GearLine, gear_book, gear_lines
from garage.engine.gear import KINDS, age_years, week_spans
from garage.engine.gear.printed import day_words
from garage.engine.gear.rules import rule_words
from garage.models import Entry, Event, Garage, Gear, GearRule, NeededGear, Vehicle

EVENTS_SHOWN = 8


def entries_ahead(garage: Garage, at: datetime) -> list[Entry]:
    rows = Entry.objects.in_garage(garage).upcoming(at).kept()
    return list(rows.select_related("event", "vehicle"))


def _next_for(gear: Gear, entries: list[Entry]) -> Entry | None:
    """The next entry of its car; what a person wears goes to whichever event is next."""
    if gear.vehicle_id:
        return next((each for each in entries if each.vehicle_id == gear.vehicle_id), None)
    return entries[0] if entries and KINDS[gear.kind].worn else None


def _lines(book: GearBook, entries: list[Entry]) -> list[GearLine]:
    lines = [line for gear in book.rows for line in gear_lines(book, [gear], _next_for(gear, entries))]
    return sorted(lines, key=lambda line: line.judged.order)


def all_gear(garage: Garage, at: datetime) -> list[GearLine]:
    """Everything in use, worst first, then by what runs out first; four queries."""
    entries = entries_ahead(garage, at)
    return _lines(gear_book(garage, at, entries), entries)


def warned_gear(garage: Garage, at: datetime) -> list[GearLine]:
    """What still passes at its next event, and runs out within the sixty days after."""
    return [line for line in all_gear(garage, at) if line.judged.state == "soon"]


@dataclass(frozen=True)
class GearView:
    """One piece: for its next event, and for each event that it may go to; a tyre's `week`."""

    line: GearLine
    ahead: tuple[GearLine, ...]
    week: str


def _week_words(code: str, day: date) -> str:
    """`Made between 2 June 2019 and 15 June 2019, ...; 6.9 years old on 16 May 2026.`"""
    if not code:
        return ""
    days = [each for span in week_spans(code) for each in span]
    return (
        f"Made between {day_words(min(days))} and {day_words(max(days))}, by how weeks are counted;"
        f" {age_years(code, day):.1f} years old on {day_words(day)}."
    )


def gear_view(gear: Gear, at: datetime) -> GearView:
    entries = [
        each
        for each in entries_ahead(gear.garage, at)
        if each.vehicle_id == gear.vehicle_id or (gear.vehicle_id is None and KINDS[gear.kind].worn)
    ]
    book = gear_book(gear.garage, at, entries)
    once = {each.event_id: each for each in reversed(entries)}
    ahead = sorted(once.values(), key=lambda each: each.event.gates_at)[:EVENTS_SHOWN]
    entry = _next_for(gear, entries)
    (line,) = gear_lines(book, [gear], entry)
    return GearView(
        line,
        tuple(found for each in ahead for found in gear_lines(book, [gear], each)),
        _week_words(gear.code, book.day_of(entry)),
    )


@dataclass(frozen=True)
class CarGear:
    """`needed` None while nobody has said what the car must have."""

    lines: tuple[GearLine, ...]
    needed: tuple[str, ...] | None
    missing: tuple[str, ...]


def car_gear(vehicle: Vehicle, at: datetime) -> CarGear:
    rows = [each for each in entries_ahead(vehicle.garage, at) if each.vehicle_id == vehicle.pk]
    book = gear_book(vehicle.garage, at, rows[:1])
    found = NeededGear.objects.filter(vehicle=vehicle).first()
    kinds = tuple(found.kinds) if found else ()
    own = [each for each in book.of_car(vehicle.pk) if each.vehicle_id == vehicle.pk or each.kind in kinds]
    there = {each.kind for each in own}
    return CarGear(
        gear_lines(book, own, rows[0] if rows else None),
        tuple(KINDS[kind].label for kind in kinds) if found else None,
        tuple(KINDS[kind].label for kind in kinds if kind not in there),
    )


@dataclass(frozen=True)
class EventGear:
    """What passes on the day and runs out soon after; `rules` in words, what is not as printed."""

    soon: tuple[GearLine, ...]
    rules: tuple[str, ...]


def event_gear(event: Event, at: datetime) -> EventGear:
    entries = [each for each in entries_ahead(event.garage, at) if each.event_id == event.pk]
    book = gear_book(event.garage, at, entries)
    seen: dict[int, GearLine] = {}
    for entry in entries:
        for line in gear_lines(book, book.of_car(entry.vehicle_id), entry):
            seen.setdefault(line.gear.pk, line)
    rules = GearRule.objects.filter(event=event)
    return EventGear(
        tuple(
            sorted(
                (line for line in seen.values() if line.judged.state == "soon"),
                key=lambda line: line.judged.order,
            )
        ),
        tuple(f"{KINDS[row.kind].label}: {rule_words(row.rule)}" for row in rules),
    )

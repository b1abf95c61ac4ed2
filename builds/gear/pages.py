"""What the pages say of gear: all of it, one piece, a car's, an event's."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from builds.gear.facts.book import GearBook, gear_book
from builds.work.models.job import Job
from builds.work.models.states import FINISHED_STATES
from garage.engine.gear import KINDS, Judged, age_years, week_spans
from garage.engine.gear.rules import rule_words
from garage.engine.moments import date_words
from garage.facts.entries import kept_ahead
from garage.models import Entry, Event, Garage, Gear, GearRule, NeededGear, Vehicle

EVENTS_SHOWN = 8
# The mark and the word beside each state; only what passes is drawn as finished. What was struck has that of its kind.
MARKS = {
    "good": ("full", "in date"),
    "soon": ("half", "runs out soon"),
    "out": ("hold", "out of date"),
    "due": ("hold", "due"),
    "undated": ("hold", "not known"),
    "struck": ("hold", ""),
}


@dataclass(frozen=True)
class GearLine:
    """A piece of gear with what is said of it for the next event, and for today."""

    gear: Gear
    judged: Judged
    today: Judged
    entry: Entry | None
    struck: str

    @property
    def whose(self) -> str:
        return str(self.gear.vehicle or self.gear.member or "the garage")

    @property
    def stripe(self) -> str:
        return MARKS[self.judged.state][0]

    @property
    def word(self) -> str:
        return MARKS[self.judged.state][1] or KINDS[self.gear.kind].after_crash

    @property
    def said(self) -> str:
        """`Ran out on 31 March 2027, ...: not valid on the day of Saltmarsh Hill Climb.`"""
        if self.judged.state == "struck":
            return f"{self.judged.sentence} {self.struck}".strip()
        if self.entry and self.judged.state == "out":
            return f"{self.judged.sentence[:-1]}: not valid at {self.entry.event}."
        return self.judged.sentence


def gear_lines(book: GearBook, rows: Iterable[Gear], entry: Entry | None) -> tuple[GearLine, ...]:
    """What is worst and runs out first stands first."""
    lines = [
        GearLine(gear, book.judge(gear, entry), book.judge(gear, None), entry, book.why_struck(gear)) for gear in rows
    ]
    return tuple(sorted(lines, key=lambda line: line.judged.order))


def _next_for(gear: Gear, entries: list[Entry]) -> Entry | None:
    """The next entry of its car; what a person wears goes to whichever event is next."""
    if gear.vehicle_id:
        return next((entry for entry in entries if entry.vehicle_id == gear.vehicle_id), None)
    return entries[0] if entries and KINDS[gear.kind].worn else None


def _lines(book: GearBook, entries: list[Entry]) -> list[GearLine]:
    lines = [line for gear in book.rows for line in gear_lines(book, [gear], _next_for(gear, entries))]
    return sorted(lines, key=lambda line: line.judged.order)


def all_gear(garage: Garage, at: datetime, entries: list[Entry] | None = None) -> list[GearLine]:
    """Everything in use, worst first, then by what runs out first; four queries.

    `entries` are those of `kept_ahead`, if they are at hand.
    """
    ahead = kept_ahead(garage, at) if entries is None else entries
    return _lines(gear_book(garage, at, ahead), ahead)


def warned_gear(garage: Garage, at: datetime, entries: list[Entry] | None = None) -> list[GearLine]:
    """What still passes at its next event, and runs out within the sixty days after."""
    return [line for line in all_gear(garage, at, entries) if line.judged.state == "soon"]


@dataclass(frozen=True)
class GearView:
    """One piece: for its next event, and for each event that it may go to; a tyre's `week`."""

    line: GearLine
    ahead: tuple[GearLine, ...]
    week: str
    wears: bool


def _week_words(code: str, day: date) -> str:
    """`Made between 2 June 2019 and 15 June 2019, ...; 6.9 years old on 16 May 2026.`"""
    if not code:
        return ""
    days = [day for span in week_spans(code) for day in span]
    return (
        f"Made between {date_words(min(days))} and {date_words(max(days))}, by how weeks are counted;"
        f" {age_years(code, day):.1f} years old on {date_words(day)}."
    )


def gear_view(gear: Gear, at: datetime) -> GearView:
    entries = [
        entry
        for entry in kept_ahead(gear.garage, at)
        if entry.vehicle_id == gear.vehicle_id or (gear.vehicle_id is None and KINDS[gear.kind].worn)
    ]
    book = gear_book(gear.garage, at, entries)
    of_event = {entry.event_id: entry for entry in reversed(entries)}
    ahead = sorted(of_event.values(), key=lambda entry: entry.event.gates_at)[:EVENTS_SHOWN]
    next_entry = _next_for(gear, entries)
    (line,) = gear_lines(book, [gear], next_entry)
    return GearView(
        line,
        tuple(line for entry in ahead for line in gear_lines(book, [gear], entry)),
        _week_words(gear.code, book.day_of(next_entry)),
        gear.pk in book.lives,
    )


@dataclass(frozen=True)
class CarGear:
    """`needed` None while nobody has said what the car must have."""

    lines: tuple[GearLine, ...]
    needed: tuple[str, ...] | None
    missing: tuple[str, ...]


def car_gear(vehicle: Vehicle, at: datetime) -> CarGear:
    entries = [entry for entry in kept_ahead(vehicle.garage, at) if entry.vehicle_id == vehicle.pk]
    book = gear_book(vehicle.garage, at, entries[:1])
    needed = NeededGear.objects.filter(vehicle=vehicle).first()
    kinds = tuple(needed.kinds) if needed else ()
    own = book.counted(vehicle.pk, kinds)
    there = {gear.kind for gear in own}
    return CarGear(
        gear_lines(book, own, entries[0] if entries else None),
        tuple(KINDS[kind].label for kind in kinds) if needed else None,
        tuple(KINDS[kind].label for kind in kinds if kind not in there),
    )


@dataclass(frozen=True)
class EventGear:
    """What passes on the day and runs out soon after; `rules` in words, what is not as printed."""

    soon: tuple[GearLine, ...]
    rules: tuple[str, ...]


def event_gear(event: Event, entries: Iterable[Entry], at: datetime) -> EventGear:
    """`entries` are those of the event, with event and car; after what is over nothing runs out soon."""
    coming = [entry for entry in entries if event.ends_at > at and entry.vehicle.gone_at is None]
    rules = list(GearRule.objects.filter(event=event))
    book = gear_book(event.garage, at, coming, rules=rules)
    seen: dict[int, GearLine] = {}
    for entry in coming:
        for line in gear_lines(book, book.of_car(entry.vehicle_id), entry):
            seen.setdefault(line.gear.pk, line)
    return EventGear(
        tuple(
            sorted(
                (line for line in seen.values() if line.judged.state == "soon"),
                key=lambda line: line.judged.order,
            )
        ),
        tuple(f"{KINDS[rule.kind].label}: {rule_words(rule.rule)}" for rule in rules),
    )


def work_words(work: Iterable[Job]) -> list[str]:
    """What a piece that came off or went on was for its car."""
    return [
        f"“{job}” is work on {job.vehicle}"
        + (": somebody else looks at it." if job.state in FINISHED_STATES else ": without one it does not run.")
        for job in work
    ]

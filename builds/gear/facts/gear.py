"""Gear judged: for the event that its car goes to next, and for today."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.db.models import TextField
from django.db.models.functions import Cast

from builds.work.models.job import Job
from garage.engine.gear import AS_PRINTED, KINDS, STRUCK_KINDS, DateRule, Judged, judge
from garage.engine.gear.printed import day_words
from garage.models import Entry, Garage, Gear, GearRule

# The mark and the word beside each state; only what passes is drawn as finished.
MARKS = {
    "good": ("full", "in date"),
    "soon": ("half", "runs out soon"),
    "out": ("hold", "out of date"),
    "undated": ("hold", "not known"),
    "struck": ("hold", "to inspect"),
}


@dataclass(frozen=True)
class Crash:
    """A job that looks a car over after a crash: when it was written down."""

    car: str
    title: str
    at: datetime


@dataclass(frozen=True)
class GearBook:
    """Everything that gear is judged by, read once: flat in queries for a whole fleet."""

    zone: ZoneInfo
    at: datetime
    rows: tuple[Gear, ...]
    rules: dict[int, dict[str, DateRule]]
    crashes: dict[int, Crash]

    def day_of(self, entry: Entry | None) -> date:
        """The last day of the event, in the garage's time; without one, today."""
        return (entry.event.ends_at if entry else self.at).astimezone(self.zone).date()

    def rule_of(self, entry: Entry | None, kind: str) -> DateRule:
        return self.rules.get(entry.event_id, {}).get(kind, AS_PRINTED) if entry else AS_PRINTED

    def crash_of(self, gear: Gear) -> Crash | None:
        """The crash on record that it may have been in, unless an owner has passed it since.

        What a person wears may have been in any car. Gear written down after the crash was not.
        """
        if gear.kind not in STRUCK_KINDS:
            return None
        if gear.vehicle_id:
            found = self.crashes.get(gear.vehicle_id)
        elif KINDS[gear.kind].worn:
            found = max(self.crashes.values(), key=lambda crash: crash.at, default=None)
        else:
            found = None
        if found is None or found.at < gear.made_at:
            return None
        return None if gear.passed_at and gear.passed_at >= found.at else found

    def judge(self, gear: Gear, entry: Entry | None) -> Judged:
        struck = self.crash_of(gear) is not None
        return judge(gear.item(struck=struck), self.rule_of(entry, gear.kind), self.day_of(entry))

    def why_struck(self, gear: Gear) -> str:
        """Which crash, in one sentence; empty when it is not struck."""
        if gear.struck_by_hand:
            return f"{gear.struck_note.rstrip('.')}." if gear.struck_note else ""
        crash = self.crash_of(gear)
        if crash is None:
            return ""
        when = day_words(crash.at.astimezone(self.zone).date())
        return f"{crash.title} on {crash.car}, written down {when}."

    def of_car(self, vehicle: int) -> list[Gear]:
        """The car's own, then what people wear who are still here."""
        own = [gear for gear in self.rows if gear.vehicle_id == vehicle]
        return own + [
            gear
            for gear in self.rows
            if gear.vehicle_id is None and KINDS[gear.kind].worn and not (gear.member and gear.member.left_at)
        ]


def gear_book(garage: Garage, at: datetime, entries: Iterable[Entry]) -> GearBook:
    """Three queries at most, whatever the fleet; without gear that a crash strikes, fewer."""
    gear = Gear.objects.in_garage(garage).in_use().select_related("vehicle", "member__person")
    rows = tuple(gear)
    rules: dict[int, dict[str, DateRule]] = defaultdict(dict)
    if rows:
        for row in GearRule.objects.filter(event__in={entry.event_id for entry in entries}):
            rules[row.event_id][row.kind] = row.rule
    struck = any(each.kind in STRUCK_KINDS for each in rows)
    crashes = _crashes(garage) if struck else {}
    return GearBook(ZoneInfo(garage.time_zone), at, rows, rules, crashes)


def _crashes(garage: Garage) -> dict[int, Crash]:
    """The latest crash on record of each car (pk)."""
    rows = (
        Job.objects.in_garage(garage)
        .annotate(kinds_text=Cast("kinds", TextField()))
        .filter(kinds_text__contains='"crash"')
        .order_by("made_at", "pk")
        .values_list("vehicle_id", "vehicle__name", "title", "made_at")
    )
    return {vehicle: Crash(car, title, made) for vehicle, car, title, made in rows}


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
        return MARKS[self.judged.state][1]

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

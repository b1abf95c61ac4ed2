"""What gear is judged by: the rules of events, the crashes of cars, the day."""

from collections import defaultdict
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from builds.gear.engine import Crash, Lasts, Used, by_use, why_struck
from builds.gear.models import Renewal, UseLife
from builds.work.engine.running import Run
from builds.work.facts.runs import RunsByCar, runs_of
from builds.work.models.job import Job, names_any
from builds.work.models.states import FINISHED_STATES
from garage.engine.gear import AS_PRINTED, KINDS, STRUCK_KINDS, DateRule, Judged, judge
from garage.models import Entry, Event, Garage, Gear, GearRule
from garage.remembered import remembered


@dataclass(frozen=True)
class GearBook:
    """Everything that gear is judged by, read once: flat in queries for a whole fleet."""

    zone: ZoneInfo
    at: datetime
    rows: tuple[Gear, ...]
    rules: dict[int, dict[str, DateRule]]
    crashes: dict[int, Crash]
    lives: dict[int, UseLife]
    renewed: dict[int, datetime]
    runs: dict[int, list[Run]]

    def day_of(self, entry: Entry | None) -> date:
        """The last day of the event, in the garage's time; without one, today."""
        return (entry.event.ends_at if entry else self.at).astimezone(self.zone).date()

    def rule_of(self, entry: Entry | None, kind: str) -> DateRule:
        return self.rules.get(entry.event_id, {}).get(kind, AS_PRINTED) if entry else AS_PRINTED

    def crash_of(self, gear: Gear) -> Crash | None:
        """The crash on record that it may have been in, unless an owner has passed it since.

        What a person wears may have been in any car. Gear written down after the crash was not. What is dated later
        than now says nothing: the clock was wrong.
        """
        if gear.kind not in STRUCK_KINDS:
            return None
        if gear.vehicle_id:
            crash = self.crashes.get(gear.vehicle_id)
        elif KINDS[gear.kind].worn:
            crash = max(self.crashes.values(), key=lambda crash: crash.at, default=None)
        else:
            crash = None
        if crash is None or crash.at < gear.made_at <= self.at:
            return None
        return None if gear.passed_at and crash.at <= gear.passed_at <= self.at else crash

    def judge(self, gear: Gear, entry: Entry | None) -> Judged:
        """By its label and by its use, the worse of both; what is only worn by use needs no label."""
        struck = self.crash_of(gear) is not None
        by_label = judge(gear.item(struck=struck), self.rule_of(entry, gear.kind), self.day_of(entry))
        life = self.lives.get(gear.pk)
        if life is None or gear.vehicle_id is None:
            return by_label
        worn = by_use(
            Lasts(life.runs, life.minutes, life.run_minutes, life.months),
            self.used(gear.pk, gear.vehicle_id, life, entry),
            self.day_of(entry),
        )
        if by_label.state == "undated" and gear.printed is None and not gear.standard:
            return worn
        return min(by_label, worn, key=lambda judged: judged.order)

    def used(self, gear: int, car: int, life: UseLife, entry: Entry | None) -> Used:
        """Since it was new, on whichever car; of the event judged for, what it still has to run."""
        since, before = max(life.since, self.renewed.get(gear, life.since)), 0
        came = since
        if life.moved_at and life.moved_at >= since:
            came, before = life.moved_at, life.runs_before
        runs = [run for run in self.runs.get(car, []) if run.last > came]
        ahead, event = 0, ""
        if entry and not any(_at(run, entry.event) for run in runs):
            ahead, event = entry.event.runs, entry.event.name
        day, done = since.astimezone(self.zone).date(), before + sum(run.runs for run in runs)
        return Used(day, done, ahead, event, to_come=since > self.at)

    def why_struck(self, gear: Gear) -> str:
        """Which crash, in one sentence; empty when it is not struck."""
        note = gear.struck_note if gear.struck_by_hand else None
        return why_struck(note, self.crash_of(gear), self.zone)

    def of_car(self, vehicle: int) -> list[Gear]:
        """The car's own, then what people wear who are still here."""
        own = [gear for gear in self.rows if gear.vehicle_id == vehicle]
        return own + [
            gear
            for gear in self.rows
            if gear.vehicle_id is None and KINDS[gear.kind].worn and not (gear.member and gear.member.left_at)
        ]

    def counted(self, vehicle: int, kinds: Collection[str]) -> list[Gear]:
        """The car's own, and what people wear of the kinds that the car must have."""
        return [gear for gear in self.of_car(vehicle) if gear.vehicle_id == vehicle or gear.kind in kinds]


def _at(run: Run, event: Event) -> bool:
    return not run.job and run.event == event.name and run.since >= event.gates_at


def gear_book(
    garage: Garage,
    at: datetime,
    entries: Iterable[Entry],
    runs: RunsByCar | None = None,
    rules: Iterable[GearRule] | None = None,
) -> GearBook:
    """Six queries at most, whatever the fleet; without gear that a crash strikes or use wears, fewer.

    `runs` are those of the cars, `rules` those of the events, if they are at hand.
    """
    rows, crashes, lives, renewed = remembered(garage, "gear_rows", lambda: _without_a_clock(garage))
    of_event: dict[int, dict[str, DateRule]] = defaultdict(dict)
    if rows and rules is None:
        rules = GearRule.objects.filter(event__in={entry.event_id for entry in entries})
    for rule in rules or ():
        of_event[rule.event_id][rule.kind] = rule.rule
    worn = {gear.vehicle for gear in rows if gear.pk in lives and gear.vehicle}
    if runs is None:
        runs = runs_of(garage, worn, at) if worn else {}
    return GearBook(ZoneInfo(garage.time_zone), at, rows, of_event, crashes, lives, renewed, runs)


def _without_a_clock(
    garage: Garage,
) -> tuple[tuple[Gear, ...], dict[int, Crash], dict[int, UseLife], dict[int, datetime]]:
    """Gear in use, crashes where one strikes some of it, its lives by use, and when it was renewed."""
    rows = tuple(Gear.objects.in_garage(garage).in_use().select_related("vehicle", "member__person"))
    crashes = _crashes(garage) if any(gear.kind in STRUCK_KINDS for gear in rows) else {}
    lives = {life.gear_id: life for life in UseLife.objects.in_garage(garage)} if rows else {}
    return rows, crashes, lives, _renewed(garage) if lives else {}


def _renewed(garage: Garage) -> dict[int, datetime]:
    """When each piece (pk) was last renewed by a job that is finished."""
    rows = Renewal.objects.in_garage(garage).filter(job__state__in=FINISHED_STATES)
    return dict(rows.order_by("job__finished_at").values_list("gear_id", "job__finished_at"))


def _crashes(garage: Garage) -> dict[int, Crash]:
    """The latest crash on record of each car (pk)."""
    rows = (
        Job.objects.in_garage(garage)
        .with_texts()
        .filter(names_any("kinds", ["crash"]))
        .order_by("made_at", "pk")
        .values_list("vehicle_id", "vehicle__name", "title", "made_at")
    )
    return {vehicle: Crash(car, title, made) for vehicle, car, title, made in rows}

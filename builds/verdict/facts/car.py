"""What the verdict is told of some cars, loaded in as many queries for one as for fifty."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from builds.gear.engine import GearFact
from builds.gear.facts.failing import gear_facts
from builds.verdict.engine import AheadFact, CureFact, DoubtFact, Facts, HoldFact, JobFact, StripFact, WeldFact
from builds.verdict.engine.judge import NOT_RECORDED
from builds.verdict.engine.records import STANDS
from builds.verdict.facts.alone import alone_facts
from builds.verdict.facts.checks import CarChecks, checks_facts
from builds.verdict.facts.cures import ahead_facts, by_then, cure_facts
from builds.verdict.facts.jobs import job_facts
from builds.verdict.facts.joints import joints_facts, weld_facts
from builds.verdict.facts.parts import doubted_facts, parts_facts
from builds.verdict.facts.readings import readings_facts
from builds.work.engine.running import Run
from builds.work.facts.runs import runs_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.link import StationHold
from builds.work.models.states import FINISHED_STATES
from garage.models import Entry, Garage, Vehicle

# What is on record of cars, each by the car's pk, whatever they are entered for.
RECORDS = {"readings": readings_facts, "parts": parts_facts, "joints": joints_facts}


@dataclass(frozen=True)
class CarRecord:
    """What is known of a car whatever it is entered for; `on_record` has what somebody has recorded of `RECORDS`."""

    runs: list[Run]
    on_record: dict[str, tuple[Any, ...]]
    holds: tuple[HoldFact, ...]
    strips: tuple[StripFact, ...]
    welds: tuple[WeldFact, ...]
    alone: tuple[str, ...]
    doubted: tuple[DoubtFact, ...]
    cures: tuple[CureFact, ...]
    ahead: tuple[AheadFact, ...]

    @property
    def mentioned(self) -> set[int]:
        return {hold.job for hold in self.holds} | {job for strip in self.strips for job in (strip.first, strip.last)}


@dataclass(frozen=True)
class CarBook:
    """What was loaded of cars (pk), once each however many entries they are judged for; it is added to.

    `jobs` with since when those are among them that rest on somebody's word; None for none of these.
    """

    records: dict[int, CarRecord] = field(default_factory=dict)
    jobs: dict[int, tuple[datetime | None, tuple[JobFact, ...]]] = field(default_factory=dict)

    def told_since(self, car: int, since: datetime | None) -> bool:
        """Whether its jobs are at hand, with all that rest on a word and ended since then."""
        if car not in self.jobs:
            return False
        kept = self.jobs[car][0]
        return since is None or (kept is not None and kept <= since)


def car_facts(
    garage: Garage, at: datetime, cars: list[Vehicle], entries: Mapping[int, Entry], book: CarBook | None = None
) -> dict[int, Facts]:
    """By the car's pk, each with its entry (by the car's pk too) and the event of that; the rest is in the `book`."""
    book = CarBook() if book is None else book
    if new := [car for car in cars if car.pk not in book.records]:
        book.records.update(_records(garage, at, new))
    records = {car.pk: book.records[car.pk] for car in cars}
    runs = {pk: record.runs for pk, record in records.items()}
    gear, checks = gear_facts(garage, cars, at, entries, runs), checks_facts(garage, cars, at, entries, runs)
    since = _oldest(records.values(), checks.values())
    jobs = {car.pk: book.jobs[car.pk] for car in cars if book.told_since(car.pk, since)}
    if untold := [car for car in cars if car.pk not in jobs]:
        rows = job_facts(untold, {job for car in untold for job in records[car.pk].mentioned}, since)
        jobs |= {car.pk: (since, tuple(rows[car.pk])) for car in untold}
        book.jobs.update(jobs)
    return {
        car.pk: _facts(
            car,
            at,
            records[car.pk],
            jobs[car.pk][1],
            gear=gear.get(car.pk),
            checks=checks.get(car.pk),
            entry=entries.get(car.pk),
        )
        for car in cars
    }


def _facts(
    car: Vehicle,
    at: datetime,
    record: CarRecord,
    jobs: tuple[JobFact, ...],
    *,
    gear: tuple[GearFact, ...] | None,
    checks: CarChecks | None,
    entry: Entry | None,
) -> Facts:
    told = {**record.on_record, **({} if gear is None else {"gear": gear})}
    there = told.keys() | ({"checks"} if checks else set())
    return Facts(
        car.pk,
        at,
        car.state,
        jobs,
        record.holds,
        record.strips,
        welds=record.welds,
        checks=checks.items if checks else (),
        stale_list=checks.stale if checks else None,
        alone=record.alone,
        unlooked=checks.unlooked if checks else (),
        reads_nothing=record.on_record.get("readings") == (),
        doubted=record.doubted,
        cures=by_then(record.cures, entry),
        ahead=record.ahead,
        unknown=tuple(name for name in NOT_RECORDED if name not in there),
        **told,
    )


def _records(garage: Garage, at: datetime, cars: list[Vehicle]) -> dict[int, CarRecord]:
    runs = runs_of(garage, cars, at)
    loaded = {name: load(garage, cars, at, runs) for name, load in RECORDS.items()}
    holds, strips = _holds(cars), _strips(cars)
    alone, welds, doubted = alone_facts(cars, runs), weld_facts(cars), doubted_facts(garage, cars)
    cures, ahead = cure_facts(garage, cars, at), ahead_facts(cars, at)
    return {
        car.pk: CarRecord(
            runs.get(car.pk, []),
            {name: by_car[car.pk] for name, by_car in loaded.items() if car.pk in by_car},
            tuple(holds[car.pk]),
            tuple(strips[car.pk]),
            tuple(welds[car.pk]),
            alone[car.pk],
            tuple(doubted[car.pk]),
            tuple(cures[car.pk]),
            tuple(ahead[car.pk]),
        )
        for car in cars
    }


def _oldest(records: Iterable[CarRecord], checks: Iterable[CarChecks]) -> datetime | None:
    """When the oldest reading, mark or tick that stands was made."""
    dated = [fact for record in records for name in ("readings", "joints") for fact in record.on_record.get(name, ())]
    dated += [item for listed in checks for item in listed.items]
    return min((fact.since for fact in dated if fact.since and fact.state == STANDS), default=None)


def _holds(cars: list[Vehicle]) -> dict[int, list[HoldFact]]:
    """Those of dropped work too: what was begun and dropped is not looked at by that."""
    holds: dict[int, list[HoldFact]] = defaultdict(list)
    unsigned = HoldPoint.objects.filter(signed_at=None, job__vehicle__in=cars)
    for car, job, what in unsigned.values_list("job__vehicle_id", "job_id", "what"):
        holds[car].append(HoldFact(job, what))
    return holds


def _strips(cars: list[Vehicle]) -> dict[int, list[StripFact]]:
    """Those that have not ended."""
    strips: dict[int, list[StripFact]] = defaultdict(list)
    kept = StationHold.objects.filter(first__vehicle__in=cars).exclude(last__state__in=FINISHED_STATES)
    for car, *strip in kept.values_list("first__vehicle_id", "first_id", "last_id", "station__name", "freed_because"):
        strips[car].append(StripFact(*strip))
    return strips

"""What the verdict is told of some cars, loaded in as many queries for one as for fifty."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from builds.gear.facts.failing import gear_facts
from builds.verdict.engine import (
    Facts,
    HoldFact,
    StripFact,
)
from builds.verdict.engine.judge import NOT_RECORDED
from builds.verdict.engine.records import STANDS
from builds.verdict.facts.alone import alone_facts
from builds.verdict.facts.checks import CarChecks, checks_facts
from builds.verdict.facts.jobs import job_facts
from builds.verdict.facts.joints import joints_facts, weld_facts
from builds.verdict.facts.parts import doubted_facts, parts_facts
from builds.verdict.facts.readings import readings_facts
from builds.work.facts.runs import runs_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.link import StationHold
from builds.work.models.states import FINISHED_STATES
from garage.models import Entry, Garage, Vehicle

# What is on record of cars, each by the car's pk.
RECORDS = {"readings": readings_facts, "gear": gear_facts, "parts": parts_facts, "joints": joints_facts}


def car_facts(garage: Garage, at: datetime, cars: list[Vehicle], entries: Mapping[int, Entry]) -> dict[int, Facts]:
    """By the car's pk, each with its entry (by the car's pk too) and the event of that."""
    runs = runs_of(cars, at)
    records = {name: load(garage, cars, at, entries, runs) for name, load in RECORDS.items()}
    checks = checks_facts(garage, cars, at, entries, runs)
    on_record = {**records, "checks": checks}
    holds, strips = _holds(cars), _strips(cars)
    mentioned = {hold.job for points in holds.values() for hold in points}
    mentioned |= {job for kept in strips.values() for strip in kept for job in (strip.first, strip.last)}
    jobs = job_facts(cars, mentioned, _oldest(records, checks.values()))
    alone, welds, doubted = alone_facts(cars, runs), weld_facts(cars), doubted_facts(garage, cars)
    return {
        car.pk: Facts(
            car.pk,
            at,
            car.state,
            tuple(jobs[car.pk]),
            tuple(holds[car.pk]),
            tuple(strips[car.pk]),
            welds=tuple(welds[car.pk]),
            checks=checks[car.pk].items if car.pk in checks else (),
            stale_list=checks[car.pk].stale if car.pk in checks else None,
            alone=alone[car.pk],
            doubted=tuple(doubted[car.pk]),
            unknown=tuple(name for name in NOT_RECORDED if car.pk not in on_record[name]),
            **{name: by_car.get(car.pk, ()) for name, by_car in records.items()},
        )
        for car in cars
    }


def _oldest(records: Mapping[str, Mapping[int, Iterable[Any]]], checks: Iterable[CarChecks]) -> datetime | None:
    """When the oldest reading, mark or tick that stands was made."""
    dated = [fact for name in ("readings", "joints") for facts in records[name].values() for fact in facts]
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

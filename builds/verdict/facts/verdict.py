"""Facts for the verdict of every car of a garage, in as many queries for one as for fifty."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime

from builds.gear.facts.failing import gear_facts
from builds.verdict.engine import (
    Facts,
    HoldFact,
    StripFact,
    Verdict,
    verdict,
)
from builds.verdict.engine.judge import NOT_RECORDED
from builds.verdict.facts.alone import alone_facts
from builds.verdict.facts.checks import checks_facts
from builds.verdict.facts.jobs import job_facts
from builds.verdict.facts.joints import joints_facts, weld_facts
from builds.verdict.facts.parts import parts_facts
from builds.verdict.facts.readings import readings_facts
from builds.work.models.hold_point import HoldPoint
from builds.work.models.link import StationHold
from garage.models import Entry, Garage, Vehicle

# What is on record of cars, each by the car's pk.
RECORDS = {"readings": readings_facts, "gear": gear_facts, "parts": parts_facts, "joints": joints_facts}


def next_entries(cars: list[Vehicle], at: datetime) -> dict[int, Entry]:
    """The next entry of each car (pk) that has one, with its event."""
    rows = Entry.objects.filter(vehicle__in=cars).upcoming(at).select_related("event")
    return {entry.vehicle_id: entry for entry in reversed(rows)}


def facts_of(
    garage: Garage,
    at: datetime,
    vehicles: Iterable[Vehicle],
    entries: dict[int, Entry] | None = None,
) -> dict[int, Facts]:
    """What is known of each car, by its pk: for these entries, else for its next one."""
    cars = list(vehicles)
    entries = next_entries(cars, at) if entries is None else entries
    records = {name: load(garage, cars, at, entries) for name, load in RECORDS.items()}
    checks = checks_facts(garage, cars, at, entries)
    on_record = {**records, "checks": checks}
    holds, strips = _holds(cars), _strips(cars)
    mentioned = {hold.job for points in holds.values() for hold in points}
    mentioned |= {job for kept in strips.values() for strip in kept for job in (strip.first, strip.last)}
    jobs, alone, welds = job_facts(cars, mentioned), alone_facts(cars, at), weld_facts(cars)
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
            unknown=tuple(name for name in NOT_RECORDED if car.pk not in on_record[name]),
            **{name: by_car.get(car.pk, ()) for name, by_car in records.items()},
        )
        for car in cars
    }


def _holds(cars: list[Vehicle]) -> dict[int, list[HoldFact]]:
    """Those of dropped work too: what was begun and dropped is not looked at by that."""
    holds: dict[int, list[HoldFact]] = defaultdict(list)
    for point in HoldPoint.objects.filter(signed_at=None, job__vehicle__in=cars).select_related("job"):
        holds[point.job.vehicle_id].append(HoldFact(point.job_id, point.what))
    return holds


def _strips(cars: list[Vehicle]) -> dict[int, list[StripFact]]:
    strips: dict[int, list[StripFact]] = defaultdict(list)
    for kept in StationHold.objects.filter(first__vehicle__in=cars).select_related("first", "station"):
        strips[kept.first.vehicle_id].append(
            StripFact(kept.first_id, kept.last_id, kept.station.name, kept.freed_because)
        )
    return strips


def verdicts(
    garage: Garage,
    at: datetime,
    vehicles: Iterable[Vehicle] | None = None,
    entries: dict[int, Entry] | None = None,
) -> dict[int, Verdict]:
    """The verdict of each car by its pk: of those given, else of every car kept."""
    cars = Vehicle.objects.in_garage(garage).kept() if vehicles is None else vehicles
    return {pk: verdict(facts) for pk, facts in facts_of(garage, at, cars, entries).items()}


def verdict_of(vehicle: Vehicle, at: datetime, entry: Entry | None = None) -> Verdict:
    """For that entry, else for the car's next one."""
    entries = {vehicle.pk: entry} if entry else None
    return verdicts(vehicle.garage, at, [vehicle], entries)[vehicle.pk]

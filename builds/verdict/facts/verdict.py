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
from builds.verdict.facts.alone import alone_facts
from builds.verdict.facts.checks import checks_facts
from builds.verdict.facts.jobs import job_facts
from builds.verdict.facts.joints import joints_facts
from builds.verdict.facts.parts import parts_facts
from builds.verdict.facts.readings import readings_facts
from builds.work.models.hold_point import HoldPoint
from builds.work.models.link import StationHold
from garage.models import Entry, Garage, Vehicle

# What each car must have on record, and what it is called while there is none; joints stand in the
# jobs and hold points already, so that a car may have none.
RECORDS = {
    "joints": (joints_facts, ""),
    "readings": (readings_facts, "readings"),
    "gear": (gear_facts, "gear dates"),
    "parts": (parts_facts, "parts"),
    "checks": (checks_facts, "the scrutineering list"),
}


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
    records = {name: load(garage, cars, at, entries) for name, (load, _words) in RECORDS.items()}
    holds: dict[int, list[HoldFact]] = defaultdict(list)
    strips: dict[int, list[StripFact]] = defaultdict(list)
    mentioned: set[int] = set()
    # Those of dropped work too: what was begun and dropped is not looked at by that.
    for point in HoldPoint.objects.filter(signed_at=None, job__vehicle__in=cars).select_related("job"):
        holds[point.job.vehicle_id].append(HoldFact(point.job_id, point.what))
        mentioned.add(point.job_id)
    for kept in StationHold.objects.filter(first__vehicle__in=cars).select_related("first", "station"):
        strips[kept.first.vehicle_id].append(
            StripFact(kept.first_id, kept.last_id, kept.station.name, kept.freed_because)
        )
        mentioned |= {kept.first_id, kept.last_id}
    jobs, alone = job_facts(cars, mentioned), alone_facts(cars, at)
    return {
        car.pk: Facts(
            car.pk,
            at,
            car.state,
            tuple(jobs[car.pk]),
            tuple(holds[car.pk]),
            tuple(strips[car.pk]),
            alone=alone[car.pk],
            unknown=tuple(words for name, (_load, words) in RECORDS.items() if words and car.pk not in records[name]),
            **{name: by_car.get(car.pk, ()) for name, by_car in records.items()},
        )
        for car in cars
    }


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

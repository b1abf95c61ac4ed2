"""Facts for the verdict of every car of a garage, in as many queries for one as for fifty."""

from collections import defaultdict
from collections.abc import Container, Iterable, Mapping
from datetime import datetime
from typing import Any

from django.db.models import Exists, F, OuterRef, Q
from django.urls import reverse

from builds.gear.facts.failing import gear_facts
from builds.verdict.engine import (
    JOINTS,
    Facts,
    HoldFact,
    JobFact,
    Reason,
    StripFact,
    Verdict,
    covered,
    verdict,
)
from builds.verdict.facts.checks import checks_facts
from builds.verdict.facts.joints import joints_facts
from builds.verdict.facts.parts import parts_facts
from builds.verdict.facts.readings import readings_facts
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link, StationHold
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES, OPEN_STATES, State
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


def covered_jobs(vehicles: Iterable[Vehicle]) -> frozenset[int]:
    """Finished jobs (pk) of recipes that a hold point after them looks at; two queries."""
    batches = Job.objects.filter(vehicle__in=vehicles, state=State.DONE).exclude(batch=None)
    points = HoldPoint.objects.filter(job__batch__in=batches.values("batch")).exclude(
        job__state=State.DROPPED, signed_at=None
    )
    points = points.exclude(signed_at__lt=F("job__finished_at"))  # work went on after the look
    links = Link.objects.by_hand().filter(before__batch__in=batches.values("batch"), after__batch=F("before__batch"))
    return covered(points.values_list("job_id", flat=True), links.values_list("before_id", "after_id"))


def is_covered(row: Mapping[str, Any], looked_at: Container[int]) -> bool:
    """Whether a done job (its row) needs no signature of its own: see `JobFact.covered`."""
    return bool(row["recipe"]) and (row["pk"] in looked_at or JOINTS.isdisjoint(row["kinds"]))


def _jobs(vehicles: list[Vehicle], mentioned: set[int]) -> dict[int, list[JobFact]]:
    """Every job that can be a reason, and those that a hold point or a strip mentions."""
    spans = Span.objects.filter(job=OuterRef("pk"))
    # Held with hands on it: work that nobody started was finished and waits at its hold point.
    stopped = Q(state=State.HELD, crew__isnull=False)
    rows = (
        Job.objects.filter(vehicle__in=vehicles)
        .annotate(handled=Exists(spans.filter(Q(state__in=[State.IN_HAND, *FINISHED_STATES]) | stopped)))
        .annotate(told=Exists(spans))
        .filter(Q(state__in=[*OPEN_STATES, State.DONE]) | Q(state=State.DROPPED, handled=True) | Q(pk__in=mentioned))
        .order_by("pk")
        .values(
            "pk",
            "vehicle_id",
            "title",
            "rank",
            "state",
            "systems",
            "kinds",
            "lowered_because",
            "recipe",
            "handled",
            "told",
        )
    )
    looked_at = covered_jobs(vehicles)
    found: dict[int, list[JobFact]] = defaultdict(list)
    for row in rows:
        # A job put down without a history is taken as begun: not known is not fit.
        untold = row["state"] in (State.WAITING, State.HELD) and not row["told"]
        found[row["vehicle_id"]].append(
            JobFact(
                row["pk"],
                row["title"],
                row["rank"],
                row["state"],
                tuple(row["systems"]),
                worked=row["handled"] or untold,
                covered=is_covered(row, looked_at),
                lowered_because=row["lowered_because"],
            )
        )
    return found


def next_entries(cars: list[Vehicle], at: datetime) -> dict[int, Entry]:
    """The next entry of each car (pk) that has one, with its event."""
    rows = Entry.objects.filter(vehicle__in=cars).upcoming(at).select_related("event")
    return {row.vehicle_id: row for row in reversed(rows)}


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
    for point in HoldPoint.objects.unsigned().filter(job__vehicle__in=cars).select_related("job"):
        holds[point.job.vehicle_id].append(HoldFact(point.job_id, point.what))
        mentioned.add(point.job_id)
    for row in StationHold.objects.filter(first__vehicle__in=cars).select_related("first", "station"):
        strips[row.first.vehicle_id].append(StripFact(row.first_id, row.last_id, row.station.name))
        mentioned |= {row.first_id, row.last_id}
    jobs = _jobs(cars, mentioned)
    return {
        car.pk: Facts(
            car.pk,
            at,
            car.state,
            tuple(jobs[car.pk]),
            tuple(holds[car.pk]),
            tuple(strips[car.pk]),
            unknown=tuple(words for name, (_load, words) in RECORDS.items() if words and car.pk not in records[name]),
            **{name: found.get(car.pk, ()) for name, found in records.items()},
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


# Where a reason of each kind is cleared; what is not named here, on the car's page.
PAGES = {
    "job": "job_page",
    "check": "check_list",
    "joint": "joint_list",
    "reading": "reading_list",
    "gear": "gear_page",
    "gear_needed": "gear_needed",
}


def reason_url(reason: Reason) -> str:
    return reverse(PAGES.get(reason.kind, "vehicle_page"), args=[reason.ref])

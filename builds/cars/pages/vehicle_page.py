"""Everything that a car's page says."""

from dataclasses import dataclass
from datetime import datetime

from builds.cars.pages.vehicle_log import CarLogLine, vehicle_log
from builds.plan.facts.on_plan import Prospect, prospects
from builds.plan.facts.stored import shown
from builds.shelf.pages.owed import OwedLine, owed_lines
from builds.shop.pages.cures import CureClock, running_cures
from builds.steps.pages.job_cards import JobList, jobs_of
from builds.verdict.engine import Verdict
from builds.verdict.pages import reason_url
from builds.work.facts.work import load_work
from garage.engine.units import UNITS, quantity_words, unit_for
from garage.models import Entry, Share, Vehicle
from parts.models import Place


@dataclass(frozen=True)
class ReasonLine:
    """What stands in the way, what would clear it, and where that is done."""

    sentence: str
    clears: str
    url: str


@dataclass(frozen=True)
class VehicleView:
    vehicle: Vehicle
    verdict: Verdict
    prospect: Prospect
    reasons: tuple[ReasonLine, ...]
    jobs: JobList
    curing: tuple[CureClock, ...]
    entries: tuple[Entry, ...]
    shares: tuple[Share, ...]
    lengths: tuple[tuple[str, str], ...]
    log: tuple[CarLogLine, ...]
    owed: tuple[OwedLine, ...]
    place: Place | None


def reason_lines(found: Verdict) -> tuple[ReasonLine, ...]:
    return tuple(ReasonLine(reason.sentence, reason.clears, reason_url(reason)) for reason in found.reasons)


def lengths_of(vehicle: Vehicle) -> tuple[tuple[str, str], ...]:
    """Wheelbase and tracks in the garage's units; what was not measured is left out."""
    shown = unit_for("length", vehicle.garage.units)
    rows = [
        ("Wheelbase", vehicle.wheelbase_um),
        ("Front track", vehicle.track_front_um),
        ("Rear track", vehicle.track_rear_um),
    ]
    return tuple((label, quantity_words(value, UNITS["µm"], shown)) for label, value in rows if value)


def vehicle_view(vehicle: Vehicle, at: datetime) -> VehicleView:
    prospect = prospects(vehicle.garage, at, [vehicle], shown(vehicle.garage))[vehicle.pk]
    found, work = prospect.verdict, load_work(vehicle.garage, at)
    entries = Entry.objects.in_garage(vehicle.garage_id).filter(vehicle=vehicle).upcoming(at)
    return VehicleView(
        vehicle,
        found,
        prospect,
        reason_lines(found),
        jobs_of(vehicle, at, work=work),
        tuple(row for row in running_cures(work) if row.job.vehicle_id == vehicle.pk),
        tuple(entries.select_related("event")),
        tuple(Share.objects.in_garage(vehicle.garage_id).filter(vehicle=vehicle).live(at)),
        lengths_of(vehicle),
        vehicle_log(vehicle, at),
        tuple(owed_lines(vehicle.garage, at, vehicle)),
        Place.objects.of_car(vehicle),
    )

"""Everything that a car's page says."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Q

from builds.cars.pages.log import CarLogLine, vehicle_log
from builds.cars.pages.reasons import ReasonLine, reason_lines
from builds.plan.engine.outlook import Outlook
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outlooks_of
from builds.plan.facts.prospects import Prospect, prospects
from builds.plan.facts.stored import shown
from builds.shelf.pages.owed import OwedLine, owed_lines
from builds.shop.pages.cures import CureClock, running_cures
from builds.steps.pages.job_cards import JobList, jobs_of
from builds.travel.engine import ride_words
from builds.travel.facts import ride_of
from builds.travel.pages import troubles_of_entry
from builds.verdict.engine import Verdict
from builds.work.facts.work import load_work
from garage.engine.units import UNITS, quantity_words, unit_for
from garage.models import Entry, Share, Vehicle
from parts.models import Place


@dataclass(frozen=True)
class VehicleView:
    """`outlook` is for its next event, None without one; `takes` are entries of cars that it takes there.

    `rides` and `troubles` say how the car itself gets to its next event, and what stands against that.
    """

    verdict: Verdict
    prospect: Prospect
    outlook: Outlook | None
    reasons: tuple[ReasonLine, ...]
    jobs: JobList
    curing: tuple[CureClock, ...]
    entries: tuple[Entry, ...]
    shares: tuple[Share, ...]
    lengths: tuple[tuple[str, str], ...]
    log: tuple[CarLogLine, ...]
    owed: tuple[OwedLine, ...]
    place: Place | None
    takes: tuple[Entry, ...]
    rides: str
    troubles: tuple[str, ...]


def vehicle_view(vehicle: Vehicle, at: datetime) -> VehicleView:
    garage = vehicle.garage
    plan, work = shown(garage), load_work(garage, at)
    prospect = prospects(garage, at, [vehicle], plan)[vehicle.pk]
    next_entry = [prospect.entry] if prospect.entry and prospect.on_plan else []
    outlooks = outlooks_of(plan, next_entry, must_do(work.jobs.values()), {vehicle.pk: prospect}, at)
    rows = Entry.objects.in_garage(garage).filter(Q(vehicle=vehicle) | Q(tow=vehicle)).upcoming(at)
    goes = list(rows.select_related("event__garage", "vehicle", "tow"))
    entries = tuple(entry for entry in goes if entry.vehicle_id == vehicle.pk)
    return VehicleView(
        prospect.verdict,
        prospect,
        next(iter(outlooks.values()), None),
        reason_lines(prospect.verdict),
        jobs_of(vehicle, at, work=work),
        tuple(clock for clock in running_cures(work) if clock.job.vehicle_id == vehicle.pk),
        entries,
        tuple(Share.objects.in_garage(garage).filter(vehicle=vehicle).live(at)),
        lengths_of(vehicle),
        vehicle_log(vehicle, at),
        tuple(owed_lines(garage, at, vehicle)),
        Place.objects.of_car(vehicle),
        tuple(entry for entry in goes if entry.tow_id == vehicle.pk),
        ride_words(ride_of(entries[0])) if entries else "",
        tuple(troubles_of_entry(entries[0], at)) if entries else (),
    )


def lengths_of(vehicle: Vehicle) -> tuple[tuple[str, str], ...]:
    """Wheelbase and tracks in the garage's units; what was not measured is left out."""
    unit = unit_for("length", vehicle.garage.units)
    measured = [
        ("Wheelbase", vehicle.wheelbase_um),
        ("Front track", vehicle.track_front_um),
        ("Rear track", vehicle.track_rear_um),
    ]
    return tuple((label, quantity_words(length, UNITS["µm"], unit)) for label, length in measured if length)

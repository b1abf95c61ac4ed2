"""What a car's page says whatever part of it is looked at, and what each of its parts says."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from builds.cars.pages.jobs import car_jobs
from builds.cars.pages.log import vehicle_log
from builds.cars.pages.reasons import ReasonLine, reason_lines
from builds.gear.pages import car_gear
from builds.plan.engine.ids import id_of
from builds.plan.engine.outlook import Outlook
from builds.plan.engine.stored import Stored
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outlooks_of, runs_by
from builds.plan.facts.prospects import Prospect, prospects
from builds.plan.facts.stored import shown
from builds.plan.pages.ready_picture import ReadyPicture, ready_picture
from builds.shelf.pages.owed import owed_lines
from builds.travel.engine import ride_words
from builds.travel.facts import ride_of, rides_ahead, troubles_of_entry
from builds.verdict.engine import Verdict
from builds.work.engine.open_work import Work
from garage.engine.units import UNITS, quantity_words, unit_for
from garage.facts.entries import entries_ahead, first_of_each_car
from garage.models import Entry, Membership, Share, Vehicle
from parts.models import Place


@dataclass(frozen=True)
class VehicleView:
    """`outlook` and `picture` are for its next event; None without one, and without odds no picture.

    `takes` are entries of cars that it takes there; `rides` and `troubles` say how the car itself gets to its
    next event, and what stands against that.
    """

    verdict: Verdict
    prospect: Prospect
    outlook: Outlook | None
    picture: ReadyPicture | None
    reasons: tuple[ReasonLine, ...]
    takes: tuple[Entry, ...]
    rides: str
    troubles: tuple[str, ...]


def vehicle_view(vehicle: Vehicle, work: Work) -> VehicleView:
    garage, at, plan = vehicle.garage, work.at, shown(vehicle.garage)
    to_do = [job for job in work.jobs.values() if job.vehicle_id == vehicle.pk]
    prospect = prospects(garage, at, [vehicle], plan, jobs=to_do)[vehicle.pk]
    entry = prospect.entry if prospect.on_plan else None
    rides = first_of_each_car(entries_ahead(garage, at)).get(vehicle.pk)
    jobs = must_do(to_do) if entry else {}
    outlooks = outlooks_of(plan, [entry] if entry else [], jobs, {vehicle.pk: prospect}, at)
    return VehicleView(
        prospect.verdict,
        prospect,
        next(iter(outlooks.values()), None),
        _picture(plan, entry, runs_by(entry, jobs.get(vehicle.pk, []), at)) if entry else None,
        reason_lines(prospect.verdict),
        tuple(entry for entry in rides_ahead(garage, at) if entry.tow_id == vehicle.pk),
        ride_words(ride_of(rides)) if rides else "",
        tuple(troubles_of_entry(garage, rides, at)) if rides else (),
    )


def _picture(plan: Stored | None, entry: Entry, due: datetime) -> ReadyPicture | None:
    """The runs of the odds that are kept beside the plan."""
    if plan is None or plan.odds is None:
        return None
    car = plan.odds.odds.vehicles.get(id_of("car", entry.vehicle_id))
    return ready_picture(car.moments, due, plan.clock) if car else None


def _jobs(vehicle: Vehicle, me: Membership, work: Work) -> dict[str, Any]:
    return {"jobs": car_jobs(vehicle, me, work)}


def _gear(vehicle: Vehicle, me: Membership, work: Work) -> dict[str, Any]:
    return {
        "gear": car_gear(vehicle, work.at),
        "owed": tuple(owed_lines(vehicle.garage, work.at, vehicle)),
        "on_it": Place.objects.of_car(vehicle),
    }


def _papers(vehicle: Vehicle, me: Membership, work: Work) -> dict[str, Any]:
    ahead = entries_ahead(vehicle.garage, work.at)
    return {
        "entries": [entry for entry in ahead if entry.vehicle_id == vehicle.pk],
        "shares": Share.objects.in_garage(vehicle.garage).filter(vehicle=vehicle).live(work.at),
        "lengths": lengths_of(vehicle),
    }


def _log(vehicle: Vehicle, me: Membership, work: Work) -> dict[str, Any]:
    return {"log": vehicle_log(vehicle, work.at)}


# What each part loads; nothing of the others.
PARTS: dict[str, Callable[[Vehicle, Membership, Work], dict[str, Any]]] = {
    "jobs": _jobs,
    "gear": _gear,
    "papers": _papers,
    "log": _log,
}


def lengths_of(vehicle: Vehicle) -> tuple[tuple[str, str], ...]:
    """Wheelbase and tracks in the garage's units; what was not measured is left out."""
    unit = unit_for("length", vehicle.garage.units)
    measured = [
        ("Wheelbase", vehicle.wheelbase_um),
        ("Front track", vehicle.track_front_um),
        ("Rear track", vehicle.track_rear_um),
    ]
    return tuple((label, quantity_words(length, UNITS["µm"], unit)) for label, length in measured if length)

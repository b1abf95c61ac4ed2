"""How likely the plan on the wall is to come true, in words."""

from dataclasses import dataclass
from datetime import datetime

from builds.odds import words
from builds.odds.answer import JobOdds, VehicleOdds
from builds.plan.actions.odds import PlanOdds, odds_of_plan
from builds.plan.engine.ids import id_of, pk_of
from builds.plan.facts.stored import Stored
from builds.plan.pages.ready_picture import ReadyPicture, ready_picture
from garage.facts.entries import first_of_each_car
from garage.models import Entry, Garage

HELD_SHOWN = 3


@dataclass(frozen=True)
class HeldUp:
    title: str
    pk: int
    sentence: str


@dataclass(frozen=True)
class CarOdds:
    """An entered car's odds in sentences, and the jobs that most often held it up."""

    entry: Entry
    outlook: str
    band: str
    picture: ReadyPicture | None
    held_up: tuple[HeldUp, ...]


@dataclass(frozen=True)
class OddsPage:
    plan: Stored | None
    runs: int = 0
    cars: tuple[CarOdds, ...] = ()


def odds_page(garage: Garage, at: datetime) -> OddsPage:
    """One query more than the odds."""
    plan_odds = odds_of_plan(garage, at=at)
    if plan_odds is None:
        return OddsPage(None)
    entries = Entry.objects.in_garage(garage).upcoming(at).select_related("event", "vehicle")
    cars = plan_odds.odds.vehicles
    return OddsPage(
        plan_odds.plan,
        plan_odds.odds.runs,
        tuple(
            _car(entry, cars[car], plan_odds)
            for pk, entry in first_of_each_car(entries).items()
            if (car := id_of("car", pk)) in cars
        ),
    )


def _car(entry: Entry, car: VehicleOdds, plan_odds: PlanOdds) -> CarOdds:
    slot, plan = car.ready_by(), plan_odds.plan
    often = [job for job in car.held_by if job.job in plan.jobs]
    return CarOdds(
        entry,
        words.outlook(car, None if slot is None else plan.clock.words(slot), plan_odds.more_work.get(car.vehicle)),
        words.band(car),
        ready_picture(car.moments, entry.event.due_at, plan.clock),
        tuple(_held(job, plan) for job in often[:HELD_SHOWN]),
    )


def _held(job: JobOdds, plan: Stored) -> HeldUp:
    return HeldUp(plan.jobs[job.job].title or job.job, pk_of(job.job), words.held_up(job))

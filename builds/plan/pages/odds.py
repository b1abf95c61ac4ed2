"""How likely the plan on the wall is to come true, in words."""

from dataclasses import dataclass
from datetime import datetime

from builds.odds import words
from builds.odds.answer import JobOdds, VehicleOdds
from builds.plan.actions.odds import with_odds
from builds.plan.engine.ids import id_of, pk_of
from builds.plan.engine.stored import Stored
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outlooks, runs_by
from builds.plan.pages.ready_picture import ReadyPicture, ready_picture
from builds.planner.words import Names
from builds.work.models.job import Job
from garage.facts.entries import entries_ahead, first_of_each_car
from garage.models import Entry, Garage

HELD_SHOWN = 3


@dataclass(frozen=True)
class HeldUp:
    """`other` is the car that it is work on, where that is not the one held up."""

    title: str
    other: str
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
    """A fixed number of queries."""
    plan = with_odds(garage)
    if plan is None or plan.odds is None:
        return OddsPage(None)
    entries = first_of_each_car(entries_ahead(garage, at))
    to_do = list(Job.objects.in_garage(garage).open().with_morning())
    cars, jobs = plan.odds.odds.vehicles, must_do(to_do)
    sentences = outlooks(garage, plan, list(entries.values()), to_do, at)
    return OddsPage(
        plan,
        plan.odds.odds.runs,
        tuple(
            _car(entry, cars[car], sentences[entry.pk].sentence, plan, runs_by(entry, jobs.get(pk, []), at))
            for pk, entry in entries.items()
            if (car := id_of("car", pk)) in cars
        ),
    )


def _car(entry: Entry, car: VehicleOdds, outlook: str, plan: Stored, due: datetime) -> CarOdds:
    often = [job for job in car.held_by if job.job in plan.jobs]
    return CarOdds(
        entry,
        outlook,
        words.band(car),
        ready_picture(car.moments, due, plan.clock),
        tuple(_held(job, plan, car.vehicle) for job in often[:HELD_SHOWN]),
    )


def _held(job: JobOdds, plan: Stored, car: str) -> HeldUp:
    planned = plan.jobs[job.job]
    other = "" if planned.vehicle == car else Names(plan.problem).car(planned.vehicle)
    return HeldUp(planned.label, other, pk_of(job.job), words.held_up(job, Names(plan.problem).car(car)))

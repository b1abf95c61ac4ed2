"""How likely the plan on the wall is to come true, from the three figures of its jobs."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.cure.facts.plan_clock import name_of
from builds.odds import words
from builds.odds.answer import JobOdds, Odds, VehicleOdds
from builds.odds.estimates import Figures, left_of, scaled
from builds.odds.log import Factor, corrected
from builds.odds.simulate import simulate
from builds.plan.facts.log_factors import factors_that_count
from builds.plan.facts.stored import Stored, shown
from builds.work.facts.work import Work, load_work
from builds.work.models.job import Job
from garage.models import Entry, Garage

RUNS = 1000
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
    in_time: str
    ready: str
    held_up: tuple[HeldUp, ...]


@dataclass(frozen=True)
class OddsPage:
    plan: Stored | None
    runs: int = 0
    cars: tuple[CarOdds, ...] = ()


def figures_of(job: Job, work: Work, found: Mapping[str, Factor]) -> Figures:
    """What is left of a job's three figures; what was said to be left by hand counts first.

    `found` is what the log says and the owner lets count.
    """
    figures = (job.low_minutes, job.likely_minutes, job.high_minutes)
    if job.left_minutes is not None and job.likely_minutes:
        return scaled(figures, max(work.left(job.pk), 1) / job.likely_minutes)
    return left_of(corrected(figures, job.systems, found), work.spent(job.pk))


def odds_page(garage: Garage, at: datetime) -> OddsPage:
    """A thousand runs of the plan on the wall; a fixed number of queries."""
    plan = shown(garage)
    if plan is None:
        return OddsPage(None)
    work, found = load_work(garage, at), factors_that_count(garage)
    estimates = {
        name: figures_of(job, work, found) for pk, job in work.jobs.items() if (name := name_of("job", pk)) in plan.jobs
    }
    odds = simulate(plan.problem, plan.answer, estimates, runs=RUNS)
    entries = Entry.objects.in_garage(garage).upcoming(at).select_related("event", "vehicle")
    nearest: dict[int, Entry] = {}
    for entry in entries:
        nearest.setdefault(entry.vehicle_id, entry)
    cars = [
        _car(entry, odds.vehicles[name], odds, plan)
        for pk, entry in nearest.items()
        if (name := name_of("car", pk)) in odds.vehicles
    ]
    return OddsPage(plan, odds.runs, tuple(cars))


def _car(entry: Entry, car: VehicleOdds, odds: Odds, plan: Stored) -> CarOdds:
    slot = car.ready_by()
    often = sorted(
        (odds.jobs[name] for name, _ in car.held_by if name in plan.jobs),
        key=lambda job: -job.held_up,
    )
    return CarOdds(
        entry,
        words.in_time(car),
        words.ready_by(None if slot is None else plan.clock.words(slot)),
        tuple(_held(job, plan) for job in often[:HELD_SHOWN] if job.held_up),
    )


def _held(job: JobOdds, plan: Stored) -> HeldUp:
    title = plan.jobs[job.job].title or job.job
    return HeldUp(title, int(job.job.removeprefix("job-")), words.held_up(job))

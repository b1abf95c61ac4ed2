"""Asks the planner what would get a late car there, and how sure that is; changes nothing."""

from collections.abc import Sequence
from datetime import datetime

from builds.cure.engine.plan_clock import PlanClock
from builds.odds.answer import VehicleOdds
from builds.odds.simulate import simulate
from builds.plan.actions.odds import SECONDS
from builds.plan.actions.time_left import out_of_time
from builds.plan.engine.ids import id_of, pk_of
from builds.plan.engine.outcome import CarOutcome
from builds.plan.facts.figures import figures
from builds.plan.facts.log_factors import factors_that_count, spread_that_all_share
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outcomes, outlooks
from builds.plan.facts.problem import problem_of
from builds.plan.facts.rows import fetch
from builds.plan.facts.stored import Stored, shown
from builds.planner.problem import ProblemError
from builds.planner.search import plan as planned
from builds.remedies.actions.answers import HuntRound, Offer, WhatItTakes
from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.kinds import changes_of, deeds_behind, kinds_of, offers
from builds.remedies.engine.changes.change import Change
from builds.remedies.engine.hunt import TRIES, Hunt
from builds.remedies.engine.proof import proofs
from builds.remedies.engine.remedy import Remedy
from builds.remedies.engine.standing import missing_cars
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from builds.work.models.job import Job
from garage.models import Entry

AT_ONCE, A_ROUND, TO_THE_END = 0.5, 0.8, 20.0  # seconds of trying
SEED = 1
RUNS = 400

Outcomes = dict[int, CarOutcome]
"""What the plan on the wall means for each entry, by its pk."""


def what_it_takes(entry: Entry, *, at: datetime, whole: bool = False) -> WhatItTakes:
    """Why the car of an entry is late, and what the first round of trying finds.

    With `whole` everything is tried before it answers.
    """
    wall = shown(entry.event.garage)
    on_the_wall = outcomes(entry.event.garage, wall, at)
    if entry.pk not in on_the_wall:
        return WhatItTakes(entry, None)
    jobs = must_do(Job.objects.on(entry.vehicle).open().with_night())
    outlook = outlooks(entry.event.garage, wall, [entry], jobs, at)[entry.pk]
    if outlook.outcome.in_time or entry.event.due_at <= at:
        return WhatItTakes(entry, outlook)
    try:
        car = _late_car(entry, wall, at)
    except ProblemError as error:
        return WhatItTakes(entry, outlook, wrong=str(error))
    first = car.plan_rows.entry.get(entry.vehicle_id, entry)
    if first != entry:
        return WhatItTakes(entry, outlook, first=first)
    proved = proofs(car.problem, car.vehicle, car.clock.words)
    tried = _try(car, on_the_wall, seconds=TO_THE_END if whole else AT_ONCE)
    return WhatItTakes(entry, outlook, proved, tried)


def next_round(entry: Entry, known: Sequence[int], *, at: datetime) -> HuntRound:
    """Go on where the gaps of the rounds before end. Raises ProblemError."""
    wall = shown(entry.event.garage)
    on_the_wall = outcomes(entry.event.garage, wall, at)
    return _try(_late_car(entry, wall, at), on_the_wall, known, seconds=A_ROUND)


def odds_of(entry: Entry, deeds: Sequence[Deed], *, at: datetime) -> VehicleOdds | None:
    """How often the car is ready in time once these are done, in many runs of that work.

    None for a car without work. Raises ProblemError, KeyError for rows that are gone, ValueError
    for what is no remedy.
    """
    car = _late_car(entry, shown(entry.event.garage), at)
    problem, _, _ = _hunt(car).tried(changes_of(deeds, car))
    estimates = figures(car.plan_rows.work, factors_that_count(entry.event.garage))
    shared = spread_that_all_share(entry.event.garage)
    return simulate(problem, estimates, runs=RUNS, shared=shared, stop=out_of_time(SECONDS)).vehicles.get(car.vehicle)


def _late_car(entry: Entry, wall: Stored | None, at: datetime) -> LateCar:
    """Near the plan on the wall. Raises ProblemError when the rows do not hang together."""
    garage = entry.event.garage
    rows = fetch(garage, at)
    clock = PlanClock.from_moment(at, rows.zone)
    problem, _ = problem_of(rows, wall.promises(clock) if wall else ())
    plan = planned(problem, tries=TRIES, seed=SEED)
    return LateCar(entry, rows, DeedRows(garage), clock, problem, plan)


def _hunt(car: LateCar, changes: Sequence[Change] = ()) -> Hunt:
    return Hunt(car.problem, car.plan, car.vehicle, changes, seed=SEED)


def _try(car: LateCar, on_the_wall: Outcomes, known: Sequence[int] = (), *, seconds: float) -> HuntRound:
    hunt = _hunt(car, offers(car))
    trying = hunt.go_on(known, seconds=seconds)
    offered = tuple(_offer(car, remedy, on_the_wall) for remedy in trying.remedies)
    return HuntRound(car, trying, offered, kinds_of(hunt.singles))


def _offer(car: LateCar, remedy: Remedy, on_the_wall: Outcomes) -> Offer:
    deeds = deeds_behind(remedy.changes, car)
    given_up = {deed.gives_up() for deed in deeds}  # nothing more is said of them
    others = [
        entry
        for entry in car.plan_rows.entry.values()
        if entry != car.entry and entry.pk in on_the_wall and entry.pk not in given_up
    ]
    missing = missing_cars(remedy.problem, remedy.plan)
    fates = [(entry, id_of("car", entry.vehicle_id) not in missing) for entry in others]
    # What is not known yet counts as missed: to miss it then is no news.
    turned = tuple((entry, makes_it) for entry, makes_it in fates if makes_it != bool(on_the_wall[entry.pk].in_time))
    jobs = car.plan_rows.work.jobs
    return Offer(remedy, deeds, turned, tuple(jobs[pk_of(name)] for name in remedy.late))

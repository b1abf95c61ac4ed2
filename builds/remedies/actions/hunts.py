"""Asks the planner what would get a car there that falls short, and how sure that is; changes nothing."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from itertools import islice
from time import perf_counter

from builds.cure.engine.plan_clock import PlanClock
from builds.odds.answer import VehicleOdds
from builds.odds.estimates import Figures
from builds.odds.simulate import runs, simulate
from builds.plan.actions.odds import SECONDS
from builds.plan.actions.time_left import out_of_time
from builds.plan.engine.ids import id_of, pk_of
from builds.plan.engine.outcome import CarOutcome
from builds.plan.engine.stored import Stored
from builds.plan.facts.figures import figures
from builds.plan.facts.log_factors import factors_that_count, spread_that_all_share
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outcomes, outlooks
from builds.plan.facts.problem import problem_of
from builds.plan.facts.rows import fetch
from builds.plan.facts.stored import shown, shown_to
from builds.planner.problem import ProblemError
from builds.planner.search import plan as planned
from builds.remedies.actions.answers import HuntRound, Offer, WhatItTakes
from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.kinds import changes_of, deeds_behind, kinds_of, offers
from builds.remedies.deeds.session import instead_of
from builds.remedies.engine.changes.change import changed
from builds.remedies.engine.changes.presence import ExtraSession, Hands
from builds.remedies.engine.hunt import TRIES, Hunt
from builds.remedies.engine.judges import FEWEST, ByOdds, ByPlan
from builds.remedies.engine.proof import proofs
from builds.remedies.engine.remedy import Remedy
from builds.remedies.engine.standing import missing_cars, standing
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from builds.work.models.job import Job
from garage.models import Entry, Membership

AT_ONCE, A_ROUND = 0.5, 0.8  # seconds of trying for one answer, while a page waits for more
A_LOOK = 0.3  # seconds for the odds of what the plan alone was asked for
MOST_ASKED = 2  # of the garage that are tried in the place of somebody new
SEED = 1
RUNS = 400
RUNS_TO_ONE = 8  # of the plan on the wall, which has seconds for its odds, to one of a change that is tried

Outcomes = dict[int, CarOutcome]
"""What the plan on the wall means for each entry, by its pk."""


def what_it_takes(
    entry: Entry, *, at: datetime, seconds: float | None = None, reader: Membership | None = None
) -> WhatItTakes:
    """Why the car of an entry falls short, and what the first round of trying finds, or so many seconds of it."""
    begun = perf_counter()
    wall = shown_to(reader) if reader else shown(entry.event.garage)
    to_do = list(Job.objects.in_garage(entry.event.garage).open().with_morning())
    on_the_wall = outcomes(entry.event.garage, wall, at, to_do)
    if entry.pk not in on_the_wall:
        return WhatItTakes(entry, None)
    outlook = outlooks(entry.event.garage, wall, [entry], to_do, at)[entry.pk]
    if not outlook.falls_short:
        return WhatItTakes(entry, outlook)
    try:
        car = _late_car(entry, wall, at)
    except ProblemError as error:
        return WhatItTakes(entry, outlook, wrong=str(error))
    first = _first(car)
    if first != entry:
        return WhatItTakes(entry, outlook, first=first)
    proved = proofs(car.problem, car.vehicle, car.clock.words, car.refused, leaves=car.due)
    tried = _try(car, on_the_wall, seconds=AT_ONCE if seconds is None else seconds)
    return WhatItTakes(entry, outlook, proved, replace(tried, seconds=perf_counter() - begun))


def next_round(entry: Entry, known: Sequence[int], *, spent: float = 0, at: datetime) -> HuntRound | None:
    """Go on where the gaps of the rounds before end, which took `spent` seconds. Raises ProblemError.

    None where there is nothing to find any more: the event is over, the car does not go or goes to another
    first, or its work is done.
    """
    begun = perf_counter()
    wall = shown(entry.event.garage)
    on_the_wall = outcomes(entry.event.garage, wall, at)
    if entry.pk not in on_the_wall:
        return None
    car = _late_car(entry, wall, at)
    if _first(car) != entry or entry.vehicle_id not in must_do(car.plan_rows.work.jobs.values()):
        return None
    tried = _try(car, on_the_wall, known, seconds=A_ROUND)
    return replace(tried, seconds=spent + perf_counter() - begun)


def odds_of(entry: Entry, deeds: Sequence[Deed], *, at: datetime) -> VehicleOdds | None:
    """How often the car is ready in time once these are done, in many runs of that work.

    None for a car without work. Raises ProblemError, KeyError for rows that are gone, ValueError
    for what is no remedy.
    """
    car = _late_car(entry, shown(entry.event.garage), at)
    problem = changed(car.problem, changes_of(deeds, car))
    estimates, shared = _figures(car)
    return simulate(problem, estimates, runs=RUNS, shared=shared, stop=out_of_time(SECONDS)).vehicles.get(car.vehicle)


def _figures(car: LateCar) -> tuple[dict[str, Figures], float]:
    """The estimates of the open jobs in minutes, and how far off all of them may be at once."""
    garage = car.entry.event.garage
    return figures(car.plan_rows.work, factors_that_count(garage)), spread_that_all_share(garage)


def _late_car(entry: Entry, wall: Stored | None, at: datetime) -> LateCar:
    """Near the plan on the wall. Raises ProblemError when the rows do not hang together."""
    garage = entry.event.garage
    rows = fetch(garage, at)
    clock = PlanClock.from_moment(at, rows.zone)
    problem, basis = problem_of(rows, wall.promises(clock) if wall else ())
    plan = planned(problem, tries=TRIES, seed=SEED)
    due = min(clock.last_until(entry.event.due_at), problem.slots)
    car = id_of("car", entry.vehicle_id)
    return LateCar(entry, rows, DeedRows(garage), clock, problem, plan, car, due, basis.refused)


def _first(car: LateCar) -> Entry:
    """The entry for which the car is planned."""
    return car.plan_rows.entry.get(car.entry.vehicle_id, car.entry)


def _try(car: LateCar, on_the_wall: Outcomes, known: Sequence[int] = (), *, seconds: float) -> HuntRound:
    """Judged by the plan where the one on the wall has the car late, else by the odds."""
    in_time = on_the_wall[car.entry.pk].in_time
    if in_time is None:
        in_time = standing(car.problem, car.plan, car.vehicle).makes_it
    judge = _by_odds(car) if in_time else ByPlan(car.vehicle)
    hunt = Hunt(car.problem, car.plan, car.vehicle, offers(car), judge=judge, seed=SEED)
    trying = hunt.go_on(known, seconds=seconds)
    remedies = sorted((*trying.remedies, *_by_those_here(hunt, trying.remedies, car)), key=lambda remedy: remedy.rank)
    offered = tuple(_offer(car, remedy, on_the_wall) for remedy in remedies)
    nearest = _offer(car, trying.nearest, on_the_wall) if trying.nearest else None
    return HuntRound(car, trying, offered, nearest, kinds_of(hunt.singles), judge)


def _by_those_here(hunt: Hunt, found: Sequence[Remedy], car: LateCar) -> list[Remedy]:
    """The hours at which somebody new would do, with those of the garage who could come then: they are asked first."""
    there = {change for remedy in found for change in remedy.changes if isinstance(change, ExtraSession)}
    also: list[Remedy] = []
    for remedy in found:
        for somebody in (change for change in remedy.changes if isinstance(change, Hands)):
            for session in islice((one for one in instead_of(somebody, car) if one not in there), MOST_ASKED):
                others = tuple(session if change == somebody else change for change in remedy.changes)
                there.add(session)
                also += filter(None, [hunt.remedy_of(others)])
    return also


def _by_odds(car: LateCar) -> ByOdds:
    """As many runs for each change as there is time for, by how many there were for the plan on the wall."""
    wall = shown(car.entry.event.garage)
    most = wall.odds.odds.runs // RUNS_TO_ONE if wall and wall.odds else 0
    return ByOdds(car.problem, car.vehicle, *_figures(car), most)


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
    late = tuple(jobs[pk_of(name)] for name in remedy.late)
    if remedy.in_time is not None or car.vehicle in missing:
        return Offer(remedy, deeds, turned, late)
    return Offer(remedy, deeds, turned, late, *_looked(car, remedy))


def _looked(car: LateCar, remedy: Remedy) -> tuple[int, int]:
    """In how many of how many runs the car is in time, where so far its plan alone has it so."""
    estimates, shared = _figures(car)
    count, begun = (0, 0), perf_counter()
    for tally in islice(runs(remedy.problem, estimates, shared=shared), FEWEST):
        count = (tally.in_time(car.vehicle), tally.runs)
        if perf_counter() - begun > A_LOOK:
            break
    return count

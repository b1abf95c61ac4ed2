"""The odds of the work on the wall, found in many runs and kept beside the plan."""

from collections.abc import Mapping
from hashlib import sha256

from builds.odds.estimates import Figures
from builds.odds.room import more_work
from builds.odds.simulate import simulate
from builds.plan.actions.time_left import out_of_time
from builds.plan.engine.kept_odds import KeptOdds, odds_table
from builds.plan.engine.stored import Stored
from builds.plan.facts.figures import figures
from builds.plan.facts.log_factors import factors_that_count, spread_that_all_share
from builds.plan.facts.stored import read, shown
from builds.plan.models import Plan
from builds.work.facts.work import load_work
from garage.models import Garage

RUNS = 1000
SECONDS = 4.0  # a page or a worker takes no longer, and says how many runs it has


def with_odds(garage: Garage) -> Stored | None:
    """The plan on the wall with odds that rest on what is so; None without a plan. A fixed number of queries.

    A thousand runs, or as many as there is time for, unless those that are kept beside it still hold. What
    is left of a job in hand is what was left when it was planned, for that is when the runs begin.
    """
    plan = shown(garage)
    if plan is None:
        return None
    estimates = figures(load_work(garage, plan.as_of), factors_that_count(garage))
    shared = spread_that_all_share(garage)
    rests_on = _digest(plan, estimates, shared)
    if plan.odds and plan.odds.rests_on == rests_on:
        return plan
    odds = simulate(plan.problem, estimates, runs=RUNS, shared=shared, stop=out_of_time(SECONDS))
    kept = KeptOdds(odds, {car: _minutes(plan, car) for car in odds.vehicles}, rests_on)
    plan.row.odds = odds_table(kept)
    Plan.objects.filter(pk=plan.row.pk).update(odds=plan.row.odds)
    return read(plan.row, garage)


def find_odds(plan: int) -> None:
    """Have the odds of that plan (pk) be kept; nothing where it is on the wall no more."""
    row = Plan.objects.filter(pk=plan).select_related("garage").first()
    if row and Plan.objects.in_garage(row.garage).shown().first() == row:
        with_odds(row.garage)


def _minutes(plan: Stored, car: str) -> int | None:
    more = more_work(plan.problem, plan.answer, car)
    return None if more is None else more * plan.problem.slot_minutes


def _digest(plan: Stored, estimates: Mapping[str, Figures], shared: float) -> str:
    """What the odds rest on besides the plan with its problem, which never change: figures and log."""
    counted = sorted((job, three) for job, three in estimates.items() if job in plan.jobs)
    return sha256(f"{counted} {shared}".encode()).hexdigest()

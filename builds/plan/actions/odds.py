"""The odds of the work on the wall, found in many runs and kept while plan and figures stand."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from time import perf_counter

from django.core.cache import cache

from builds.odds.answer import Odds
from builds.odds.estimates import Figures
from builds.odds.room import more_work
from builds.odds.simulate import simulate
from builds.plan.facts.figures import figures
from builds.plan.facts.log_factors import factors_that_count, spread_that_all_share
from builds.plan.facts.stored import Stored, shown
from builds.work.facts.work import load_work
from garage.models import Garage

RUNS = 1000
SECONDS = 4.0  # a page waits no longer, and says how many runs it has
KEPT = 24 * 3600


@dataclass(frozen=True)
class PlanOdds:
    """`more_work`: by car, the minutes of one more job that leave it in time; None for one late as it is."""

    plan: Stored
    odds: Odds
    more_work: Mapping[str, int | None]


def odds_of_plan(garage: Garage, *, at: datetime) -> PlanOdds | None:
    """A thousand runs, or as many as there is time for; None without a plan. A fixed number of queries."""
    plan = shown(garage)
    if plan is None:
        return None
    estimates = figures(load_work(garage, at), factors_that_count(garage))
    shared = spread_that_all_share(garage)
    key = _key(plan, estimates, shared)
    known = cache.get(key)
    if known is None:
        odds = simulate(plan.problem, estimates, runs=RUNS, shared=shared, stop=out_of_time(SECONDS))
        known = odds, {car: _minutes(plan, car) for car in odds.vehicles}
        cache.set(key, known, KEPT)
    return PlanOdds(plan, *known)


def out_of_time(seconds: float) -> Callable[[], bool]:
    """Whether so many seconds are over, for whoever would go on."""
    begun = perf_counter()
    return lambda: perf_counter() - begun > seconds


def _minutes(plan: Stored, car: str) -> int | None:
    more = more_work(plan.problem, plan.answer, car)
    return None if more is None else more * plan.problem.slot_minutes


def _key(plan: Stored, estimates: Mapping[str, Figures], shared: float) -> str:
    """What the odds rest on: the plan with its problem, which never change, the figures and the log."""
    counted = sorted((job, three) for job, three in estimates.items() if job in plan.jobs)
    made = f"{plan.row.pk} {plan.row.made_at.isoformat()} {counted} {shared}"
    return f"odds-{sha256(made.encode()).hexdigest()}"

"""The odds of the plan on the wall, found by running it many times."""

from dataclasses import dataclass
from datetime import datetime

from builds.odds.answer import Odds
from builds.odds.simulate import simulate
from builds.plan.facts.figures import figures
from builds.plan.facts.log_factors import factors_that_count
from builds.plan.facts.stored import Stored, shown
from builds.work.facts.work import load_work
from garage.models import Garage

RUNS = 1000


@dataclass(frozen=True)
class PlanOdds:
    plan: Stored
    odds: Odds


def odds_of_plan(garage: Garage, *, at: datetime) -> PlanOdds | None:
    """A thousand runs; None without a plan. A fixed number of queries."""
    plan = shown(garage)
    if plan is None:
        return None
    estimates = figures(load_work(garage, at), factors_that_count(garage))
    return PlanOdds(plan, simulate(plan.problem, estimates, runs=RUNS))

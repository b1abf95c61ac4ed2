"""Six made garages whose cars are neither sure of their event nor sure to miss it."""

from __future__ import annotations

from builds.odds.estimates import Figures
from builds.planner.problem import Problem
from tests.benchmarks.planner.fleets import made_fleet

GARAGES = {
    "one car, mostly in time": (30, 2, 0.6),
    "one car, late as often as not": (30, 5, 0.6),
    "one car, mostly late": (30, 3, 0.6),
    "one car, too much work": (36, 2, 0.6),
    "two cars, both with a chance": (60, 7, 0.5),
    "two cars in each other's way": (60, 6, 0.55),
}
"""Jobs, seed and load of each."""


def garage(name: str) -> Problem:
    """The problem of a garage."""
    return made_fleet(*GARAGES[name])


def figures(problem: Problem) -> dict[str, Figures]:
    """Every job between seven tenths of its likely figure and nearly twice that, in minutes."""
    minutes = {job.id: job.work * problem.slot_minutes for job in problem.jobs}
    return {name: (0.7 * likely, likely, 1.9 * likely) for name, likely in minutes.items()}

"""What must hold of the odds of made garages, on the same lengths."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from builds.odds.simulate import simulate
from tests.builds.odds.garages import GARAGES, figures, garage

RUNS = 40


def deviation(*shares: float) -> float:
    """The standard error of the difference of two shares of so many runs each; never quite none."""
    return max(1 / RUNS, sqrt(sum(share * (1 - share) for share in shares) / RUNS))


@pytest.mark.parametrize("name", GARAGES)
def test_one_worker_less_does_not_raise_the_share_of_a_car(name):
    problem = garage(name)
    fewer = replace(problem, people=problem.people[:-1])
    estimates = figures(problem)
    with_all = simulate(problem, estimates, runs=RUNS).vehicles
    without = simulate(fewer, estimates, runs=RUNS).vehicles
    for car, odds in with_all.items():
        if odds.share is not None:
            share = without[car].share
            assert share <= odds.share + 2 * deviation(share, odds.share), car

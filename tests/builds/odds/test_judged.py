"""The odds of the two published problems against the shares that a judge found for them in 300 runs."""

from __future__ import annotations

import json
from math import sqrt

import pytest

from builds.odds.simulate import own_ranges, simulate
from tests.builds.planner.data import ODDS, fleet

RUNS = 200
TOO_HOPEFUL = {("odds_22", "v2")}
"""Cars of which the odds think better than the published judge by some twelve points. It takes the best of four
orders, and which four is not said; this car hangs on it: 0.70 with ours, 0.59 with the longest tail in place of the
weight of the car (and then the next car 0.82 for 0.73), 0.50 in a judge with tail and slack in place of both. Of the
126 sets of four of our nine rules none comes nearer to all six published shares than ours by more than chance.
Planned again at the sessions alone, it would make it in hardly any run."""


@pytest.mark.parametrize("path", ODDS, ids=lambda path: path.stem)
def test_the_odds_are_within_five_points_of_the_published_shares_but_for_the_luck_of_the_runs(path):
    problem = fleet(path)
    judged = json.loads((path.parent / "judged.json").read_text())[path.name]
    cars = simulate(problem, own_ranges(problem), runs=RUNS).vehicles
    for car, theirs in judged.items():
        if (path.stem, car) not in TOO_HOPEFUL:
            ours, share = cars[car].share, theirs["share"]
            luck = 2 * sqrt(ours * (1 - ours) / RUNS + share * (1 - share) / theirs["runs"])
            assert abs(ours - share) <= 0.05 + luck, car

"""The odds against a slow judge that makes a new problem of what is left again and again, on the same lengths."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from math import ceil
from random import Random

import pytest

from builds.odds.course import Course
from builds.odds.estimates import BetaPert, Figures
from builds.odds.simulate import own_ranges
from builds.planner.problem import Problem
from tests.builds.odds.garages import GARAGES, figures, garage
from tests.builds.odds.judge import Judge
from tests.builds.planner.data import ODDS, fleet

RUNS = 20

POINTS = 0.05 + 1e-9


@cache
def judged_garage(name: str) -> list[tuple[str, float, float]]:
    """The shares of a made garage, found once."""
    problem = garage(name)
    return judged(problem, figures(problem))


def judged(problem: Problem, estimates: Mapping[str, Figures], runs: int = RUNS) -> list[tuple[str, float, float]]:
    """By car with something due: the share of runs in time by the judge, and by a run of the odds."""
    judge, course, random = Judge(problem), Course(problem), Random(7)
    cars = {
        car.id: jobs
        for car in problem.vehicles
        if (jobs := [job for job in problem.jobs if job.vehicle == car.id and job.rank != "wanted"])
        and any(job.due is not None for job in jobs)
    }
    in_time = {car: [0, 0] for car in cars}
    for _ in range(runs):
        lengths = {
            job.id: max(1, ceil(BetaPert(*estimates[job.id]).sample(random) / problem.slot_minutes - 1e-9))
            if job.id in estimates and job.work
            else job.work
            for job in problem.jobs
        }
        slow = judge.run(lengths)
        quick = dict(zip(lengths, course.run(list(lengths.values()))[0], strict=True))
        for car, jobs in cars.items():
            dues = {job.id: problem.slots if job.due is None else job.due for job in jobs}
            in_time[car][0] += all(slow.get(name, due + 1) <= due for name, due in dues.items())
            in_time[car][1] += all(quick[name] <= due for name, due in dues.items())
    return [(car, slow / runs, quick / runs) for car, (slow, quick) in in_time.items()]


@pytest.mark.parametrize("name", GARAGES)
def test_the_odds_of_a_made_garage_are_within_five_points_of_the_judge(name):
    shares = judged_garage(name)
    assert shares
    for car, slow, quick in shares:
        assert abs(slow - quick) <= POINTS, car


@pytest.mark.parametrize("path", ODDS, ids=lambda path: path.stem)
def test_the_odds_of_the_problems_with_ranges_are_within_five_points_of_the_judge(path):
    problem = fleet(path)
    for car, slow, quick in judged(problem, own_ranges(problem)):
        assert abs(slow - quick) <= POINTS, car


def test_the_cars_of_these_garages_are_late_in_some_runs_of_the_judge_and_not_in_others():
    """Else the comparison would say little."""
    shares = [slow for name in GARAGES for _, slow, _ in judged_garage(name)]
    assert sum(0.1 < share < 0.95 for share in shares) >= len(shares) - 2

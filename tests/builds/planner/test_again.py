"""Planned again, work stays in the order in which it stood; one job more moves little."""

import pytest

from builds.planner.again import planned_in_order, worth
from builds.planner.problem import Problem
from builds.planner.search import Plan, plan
from tests.builds.planner.garages import garage, with_one_more
from tests.builds.planner.judge import breaches

WORK, SESSION = 4, 16


def ready(problem: Problem, made: Plan) -> dict[str, int]:
    """By car the hours (slots) in which anybody is in, until all that must be done there is done."""
    ends = {place.id: place.end for place in made.placed}
    hours = sorted({slot for person in problem.people for window in person.windows for slot in range(*window)})
    last = {car.id: max(ends[job.id] for job in problem.must_do(car.id)) for car in problem.vehicles}
    return {car: sum(slot < end for slot in hours) for car, end in last.items()}


@pytest.mark.parametrize("seed", range(20))
def test_one_hour_more_puts_no_car_off_by_more_than_that_hour_and_one_session(seed):
    """What a search found is not thrown away: of the plan made at once, before anybody searches again."""
    problem = garage(seed)
    found = plan(problem, tries=250)
    asked = with_one_more(problem, seed, WORK)
    made = planned_in_order(asked, found.placed)
    assert not breaches(asked, made)
    was, now = ready(problem, found), ready(asked, made)
    assert {car: now[car] - was[car] for car in was if now[car] > was[car] + WORK + SESSION} == {}


def test_nothing_new_moves_nothing():
    problem = garage(1)
    found = plan(problem, tries=250)
    made = planned_in_order(problem, found.placed)
    assert worth(problem, made) <= worth(problem, found)

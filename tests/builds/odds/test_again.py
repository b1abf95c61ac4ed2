"""A plan that ends with the last job that could begin at once begins what the whole plan would have begun."""

from itertools import islice

import pytest

from builds.odds.again import Ahead
from builds.odds.simulate import own_ranges, runs
from tests.builds.odds.garages import figures, garage
from tests.builds.planner.data import ODDS, fleet

GARAGE = garage("two cars in each other's way")
CASES = [(GARAGE, figures(GARAGE)), *((made, own_ranges(made)) for made in map(fleet, ODDS))]


def moments(problem, estimates):
    (*_, tally) = islice(runs(problem, estimates), 6)
    return {car: odds.moments for car, odds in tally.odds().vehicles.items()}


@pytest.mark.parametrize("problem, estimates", CASES, ids=["two cars", *(path.stem for path in ODDS)])
def test_nothing_that_is_left_out_changes_a_run(monkeypatch, problem, estimates):
    short = moments(problem, estimates)
    monkeypatch.setattr(Ahead, "_with_room", lambda self, state, could, slot: (could, 0))
    assert moments(problem, estimates) == short


@pytest.mark.parametrize("problem, estimates", CASES, ids=["two cars", *(path.stem for path in ODDS)])
def test_an_order_that_is_tried_until_it_says_which_cars_are_late_is_chosen_as_if_tried_to_its_end(
    monkeypatch, problem, estimates
):
    short = moments(problem, estimates)
    monkeypatch.setattr(Ahead, "_tells", lambda self, turn: self.model.size)
    assert moments(problem, estimates) == short


def test_an_order_is_left_for_one_that_saves_a_car(monkeypatch):
    """Kept to the order of the first plan, one of the cars makes it in hardly any run."""
    problem, estimates = CASES[0]
    (*_, tally) = islice(runs(problem, estimates), 20)
    chosen = {car: tally.in_time(car) for car in tally.ready}
    monkeypatch.setattr(Ahead, "choose", lambda self, known, ready: None)
    (*_, tally) = islice(runs(problem, estimates), 20)
    kept_to = {car: tally.in_time(car) for car in tally.ready}
    assert min(chosen.values()) > min(kept_to.values())

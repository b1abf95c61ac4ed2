"""A place for two of which a stripped car keeps one: whoever may come there by the plan comes there in the runs."""

import pytest

from builds.odds.simulate import simulate
from builds.planner.problem import Hold, Link, Station, Vehicle
from builds.planner.search import plan
from tests.builds.planner.judge import breaches
from tests.builds.planner.makers import job, person, problem, spans

BAY = Station("bay", 2, stands=True)
CARS = (Vehicle("heron"), Vehicle("moth"), Vehicle("tug"))


def garage(refit=2):
    """Moth is stripped and stays in the bay until its part comes; Tug is weighed there before, Heron is to be done."""
    jobs = (
        job("moth stripped", vehicle="moth", uses={"bay": 1}, started=True, crew=("otto",)),
        job("moth refitted", vehicle="moth", rank="safety", uses={"bay": 1}, earliest=100),
        job("tug weighed", vehicle="tug", rank="safety", uses={"bay": 1}, earliest=50, due=52),
        job("heron stripped", uses={"bay": 1}, due=110),
        job("heron refitted", refit, uses={"bay": 1}, due=110),
    )
    holds = tuple(Hold(car, "bay", f"{car} stripped", f"{car} refitted") for car in ("moth", "heron"))
    links = tuple(Link(f"{car} stripped", f"{car} refitted", 6) for car in ("moth", "heron"))
    people = (person("ines"), person("otto"))
    return problem(*jobs, slots=140, stations=(BAY,), vehicles=CARS, holds=holds, links=links, people=people)


def test_a_car_that_starts_at_once_by_the_plan_does_so_in_the_runs():
    made = garage()
    answer = plan(made)
    assert not breaches(made, answer)
    assert spans(answer)["heron stripped"][0] == 0
    odds = simulate(made, {}, runs=3)
    assert odds.vehicles["heron"].share == 1
    assert odds.vehicles["heron"].ready_by() == spans(answer)["heron refitted"][1]


@pytest.mark.parametrize("refit, ends", [(42, 50), (43, 103)])
def test_it_comes_before_the_other_where_it_is_gone_by_then(refit, ends):
    """Stripped by slot 2, dry by 8; the other is there from slot 50 until 52."""
    made = garage(refit)
    odds = simulate(made, {}, runs=2)
    assert odds.vehicles["heron"].ready_by() == ends == spans(plan(made))["heron refitted"][1]

"""What has begun is where it is: no plan leaves it out, and what contradicts it waits."""

from itertools import pairwise
from random import Random

import pytest

from builds.planner.check import faults
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Hold, Link, Station, Vehicle
from builds.planner.search import plan
from tests.builds.planner.makers import PLACES, job, planned, problem, spans, why

CARS = tuple(Vehicle(car) for car in ("heron", "moth", "wren"))


def fact(name, car="heron"):
    return job(name, 0, vehicle=car, hands=0, pinned=0, rank="wanted", weight=0)


def test_nobody_weighs_a_stripped_car_elsewhere_though_its_end_waits_for_that():
    made = (fact("off"), job("on", 2, uses={"bay": 1}), job("weigh", 2, uses={"floor": 1}))
    keys = {"stations": PLACES, "holds": (Hold("heron", "bay", "off", "on"),)}
    answer = planned(*made, links=(Link("weigh", "on"),), **keys)
    assert spans(answer) == {"off": (0, 0)}
    assert "while its car stands stripped in bay, from off until on" in why(answer, "weigh")


def test_a_plan_that_leaves_out_what_has_begun_is_faulty():
    made = (fact("off"), job("on", 2, uses={"bay": 1}))
    asked = problem(*made, stations=PLACES, holds=(Hold("heron", "bay", "off", "on"),))
    left_out = Plan((Placed("on", 0, 2, ("ines",)),), (Unplaced("off", "It is pinned."),))
    assert faults(asked, left_out) == ["off has begun, and is left out."]


def test_what_begins_no_hold_or_waits_for_something_is_no_fact():
    holds = (Hold("heron", "bay", "off", "on"),)
    ends = job("on", 2), job("first", 1)
    assert problem(fact("off"), *ends, stations=PLACES).facts == frozenset()
    waits = problem(fact("off"), *ends, stations=PLACES, holds=holds, links=(Link("first", "off"),))
    assert waits.facts == frozenset()
    assert problem(fact("off"), *ends, stations=PLACES, holds=holds).facts == {"off"}


def two_stripped(*others, cars=("heron", "moth")):
    """Cars stripped in a bay for one, and other jobs."""
    made = [one for car in cars for one in (fact(f"off {car}", car), job(f"on {car}", 2, vehicle=car, uses={"bay": 1}))]
    holds = tuple(Hold(car, "bay", f"off {car}", f"on {car}") for car in cars)
    return (*made, *others), {"stations": PLACES, "holds": holds, "vehicles": CARS}


def test_two_stripped_cars_in_a_bay_for_one_are_both_there():
    made, keys = two_stripped()
    answer = plan(problem(*made, **keys))
    assert answer.unplaced == ()
    assert (spans(answer)["off heron"], spans(answer)["off moth"]) == ((0, 0), (0, 0))


def test_nobody_else_comes_into_a_bay_that_is_fuller_than_it_should_be():
    made, keys = two_stripped(job("wash", 1, vehicle="wren", uses={"bay": 1}, hands=0))
    asked = problem(*made, **keys)
    beside = [Placed("off heron", 0, 0), Placed("off moth", 0, 0), Placed("wash", 0, 1)]
    later = [Placed("on heron", 1, 3, ("ines",)), Placed("on moth", 3, 5, ("ines",))]
    assert [said for said in faults(asked, Plan((*beside, *later))) if said.startswith("bay has 3 of 1")]
    answer = plan(problem(*made, **keys))
    over = max(spans(answer)["on heron"][1], spans(answer)["on moth"][1])
    assert "wash" not in spans(answer) or spans(answer)["wash"][0] >= over


def test_a_car_that_is_stripped_in_two_places_is_left_as_it_is():
    made = (fact("off"), fact("out"), job("on", 2, uses={"bay": 1}), job("in", 2, uses={"floor": 1}))
    holds = Hold("heron", "bay", "off", "on"), Hold("heron", "floor", "out", "in")
    answer = plan(problem(*made, stations=PLACES, holds=holds))
    assert spans(answer) == {"off": (0, 0), "out": (0, 0)}


def test_work_in_hand_on_another_car_gives_way_to_what_stands_there():
    made, keys = two_stripped(
        job("tune", 3, vehicle="wren", uses={"bay": 1}, crew=("ines",), started=True), cars=("heron",)
    )
    answer = plan(problem(*made, **keys))
    assert spans(answer)["off heron"] == (0, 0)
    assert spans(answer)["tune"][0] >= spans(answer)["on heron"][1]


@pytest.mark.parametrize("seed", range(40))
def test_whatever_has_begun_every_plan_has_it(seed):
    """Random fleets with more stripped cars than room: never a fault, never a fact left out."""
    draw = Random(seed)
    places = tuple(Station(name, draw.randint(1, 2), stands=True) for name in ("bay", "floor", "corner"))
    made, holds, links = [], [], []
    for car in ("heron", "moth", "wren"):
        names = []
        for number in range(draw.randint(2, 5)):
            names.append(f"{car} {number}")
            where = {draw.choice(places).id: 1} if draw.random() < 0.7 else {}
            made.append(job(names[-1], draw.randint(1, 4), vehicle=car, uses=where, hands=draw.randint(0, 1)))
        links += [Link(*pair) for pair in pairwise(names) if draw.random() < 0.5]
        for number in range(draw.randint(0, 2)):
            made.append(fact(f"fact {car} {number}", car))
            holds.append(Hold(car, draw.choice(places).id, f"fact {car} {number}", draw.choice(names)))
    asked = problem(*made, stations=places, holds=tuple(holds), links=tuple(links), vehicles=CARS, slots=60)
    answer = plan(asked)
    assert faults(asked, answer) == []
    assert asked.facts <= {place.id for place in answer.placed}


def test_what_finds_no_room_for_stripped_cars_is_told_which_they_are():
    made, keys = two_stripped(job("wash", 1, vehicle="wren", uses={"bay": 1}, hands=0))
    answer = plan(problem(*made, **keys))
    assert why(answer, "wash") == "heron and moth stand stripped in bay, which has room for 1."

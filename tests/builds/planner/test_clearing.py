"""A job that has to clear keeps its stations for a while after its end: the air of a shop, the rest goes on."""

from random import Random

import pytest

from builds.odds.course import Course
from builds.planner.check import faults
from builds.planner.explain import reasons
from builds.planner.fields import ProblemError
from builds.planner.problem import Hold, Problem, Station
from builds.planner.search import plan
from tests.builds.planner.makers import job, person, planned, spans

SHOP = (Station("shop", 2),)
SPRAY = job("spray", 3, splits=False, uses={"shop": 2}, rank="safety", clears=2)


def test_nobody_is_in_the_shop_until_it_has_cleared_and_elsewhere_work_goes_on():
    made = (SPRAY, job("fan", 1, uses={"shop": 1}), job("tow", 1))
    people = (person("ines"), person("tove"))
    assert spans(planned(*made, people=people, stations=SHOP)) == {"spray": (0, 3), "fan": (5, 6), "tow": (0, 1)}


def test_who_is_there_already_is_not_caught_in_it_and_the_plan_says_so():
    """The fan is pinned to the moment at which the air would still be full."""
    spray, fan = job("spray", 3, splits=False, uses={"shop": 2}, clears=2), job("fan", 1, uses={"shop": 1}, pinned=4)
    made = Problem(30, (spray, fan), (person("ines"), person("tove")), SHOP)
    answer = plan(made)
    assert spans(answer) == {"fan": (4, 5), "spray": (5, 8)}
    assert reasons(made, answer)["spray"].job == "fan"


def test_the_judge_sees_who_comes_in_too_soon():
    people = (person("ines"), person("tove"))
    made = Problem(30, (SPRAY, job("fan", 1, uses={"shop": 1})), people, SHOP)
    careless = Problem(30, (job("spray", 3, splits=False, uses={"shop": 2}), made.jobs[1]), people, SHOP)
    assert faults(made, plan(careless)) == ["shop has 3 of 2 in use at slot 3."]


@pytest.mark.parametrize("seed", range(6))
def test_no_plan_and_no_run_of_the_odds_comes_in_too_soon(seed):
    random = Random(seed)
    windows = tuple((day * 20, day * 20 + random.randint(4, 8)) for day in range(8))
    made = [
        job(f"j{k}", random.randint(1, 3), splits=False, uses={"shop": 2 if k < 2 else 1}, clears=3 if k < 2 else 0)
        for k in range(7)
    ]
    people = tuple(person(name, windows=windows) for name in ("ines", "tove"))
    problem = Problem(160, tuple(made), people, SHOP)
    assert faults(problem, plan(problem)) == []
    course = Course(problem)
    works = [one.work for one in made]
    ends, _ = course.run(works)
    taken = [(end - work, end + one.clears, one.uses["shop"]) for end, work, one in zip(ends, works, made, strict=True)]
    assert max(sum(units for begin, end, units in taken if begin <= slot < end) for slot in range(160)) <= 2


def test_where_a_car_is_held_nothing_has_to_clear():
    with pytest.raises(ProblemError, match="has to clear where a car is held"):
        Problem(30, (SPRAY, job("out", 1)), (), SHOP, holds=(Hold("heron", "shop", "spray", "out"),))

"""Eleven recipes on one car, walked as a mechanic would; and what he would say if nobody linked them."""

import sys
from collections import Counter
from types import FrameType

import pytest

from builds.readings.engine.car_job import ChainStep
from builds.readings.engine.order_of_work import order_of_work
from tests.builds.recipes.engine.merge_kit import Car, Job, car_with, some_order
from tests.builds.recipes.engine.shipped_kit import RECIPES
from tests.builds.recipes.engine.trade_walk import faults, strips_of

ELEVEN = (
    "steering-arm-rework", "brake-overhaul", "damper-spring-change", "suspension-arm-replacement",
    "four-wheel-alignment", "corner-weighting", "panel-repair-paint", "seat-mounts-harness",
    "wheels-tyres-spacers", "rack-centring-lock-check", "pre-event-spanner-check",
)  # fmt: skip


@pytest.fixture(scope="module")
def car() -> Car:
    return car_with(RECIPES[key] for key in ELEVEN)


def test_whatever_order_the_links_allow_is_one_that_a_mechanic_would_follow(car: Car) -> None:
    links = car.all_links()
    for seed in range(100):
        order = some_order(car.jobs, links, seed)
        assert faults([car.jobs[id] for id in order], strips_of(car)) == []


def test_without_the_order_of_work_he_would_object_to_nearly_all_of_it(car: Car) -> None:
    told = Counter(
        word
        for seed in range(30)
        for fault in faults([car.jobs[id] for id in some_order(car.jobs, car.links, seed)], strips_of(car))
        for word in ("sparks", "spacers", "discs", "loaded", "fluids", "driven", "fuel open", "was read")
        if word in fault
    )
    assert set(told) >= {"sparks", "spacers", "discs", "fluids", "driven"}


@pytest.mark.parametrize("key", RECIPES)
def test_each_recipe_alone_is_walked_as_its_links_say(key: str) -> None:
    car = car_with([RECIPES[key]])
    for seed in range(10):
        assert faults([car.jobs[id] for id in some_order(car.jobs, car.all_links(), seed)], strips_of(car)) == []


def test_one_alignment_however_many_recipes(car: Car) -> None:
    """The bars are hooked up once the weights stand; the spanner check looks at hoses with the wheels off."""
    jobs = car.car_jobs()
    steps = Counter(jobs[id].step for id in jobs if jobs[id].step is not None and not car.jobs[id].before)
    assert {step: steps[step] for step in ChainStep} == {
        **dict.fromkeys(ChainStep, 1),
        ChainStep.WEIGHED: 2,
        ChainStep.LOCKS: 3,
        ChainStep.DRIVEN: 2,
    }
    assert sum(job.before for job in car.jobs.values()) == 1
    assert sum("brake_bleed" in job.measures for job in car.jobs.values()) == 1
    assert len(jobs) == 70 < sum(len(RECIPES[key].jobs) for key in ELEVEN)


def test_equal_hold_points_are_signed_once(car: Car) -> None:
    points = {job.title: job.hold_points for job in car.jobs.values()}
    assert len(points["Check full lock: angles, clearance, over-centre"]) == 2
    assert max(len(those) for those in points.values()) == 2


def test_a_walker_who_is_told_nonsense_says_so() -> None:
    def job(title: str, kinds: str = "", measures: str = "") -> Job:
        return Job(title, tuple(kinds.split()), tuple(measures.split()), ())

    strip, refit, down = job("Arm off", "joint_opened"), job("Arm on", "joint_opened"), job("Down", "wheels_on")
    assert faults([strip, down, refit], [(strip, [refit])]) == [
        "on its wheels while stripped: “Arm on” comes after “Down”"
    ]
    springs, height = job("Springs", "spring_change"), job("Height", "", "ride_height")
    assert faults([height, springs], []) == ["ride_height was read before “Springs”"]
    line, run = job("Line off", "fuel_line"), job("Start it", "engine_run")
    assert faults([line, run], []) == ["“Start it” runs the engine with the fuel open since “Line off”"]
    assert faults([line, job("Leak test", "", "fuel_leak"), run], []) == []
    drive, torque = job("Drive", "driven"), job("Torque", "", "wheel_torque")
    assert faults([drive, torque], []) == ["driven in “Drive” before “Torque”"]


def calls_a_job(recipes: int) -> float:
    """How many calls drawing the order of so many recipes takes, for each of their jobs."""
    car, calls = car_with(list(RECIPES.values())[:recipes]), 0
    jobs, strips = car.car_jobs(), sorted(car.strips)

    def counted(frame: FrameType, event: str, arg: object) -> None:
        nonlocal calls
        calls += event == "call"

    before = sys.getprofile()
    sys.setprofile(counted)
    try:
        order_of_work(jobs, car.links, strips)
    finally:
        sys.setprofile(before)
    return calls / len(jobs)


def test_the_order_of_all_recipes_on_one_car_is_drawn_without_asking_each_job_of_each_other() -> None:
    few, all_of_them = calls_a_job(4), calls_a_job(len(RECIPES))
    assert all_of_them < 3 * few < 1200

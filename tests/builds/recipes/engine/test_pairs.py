"""Every two recipes on one car, in either order: measured once at the end, and nothing built on what is still off."""

from collections.abc import Callable
from itertools import permutations

import pytest

from builds.readings.engine.car_job import CarJob, ChainStep
from builds.recipes.engine.sides import at_side
from tests.builds.recipes.engine.merge_kit import Car, Job, car_with, some_order
from tests.builds.recipes.engine.shipped_kit import RECIPES
from tests.builds.recipes.engine.trade_walk import faults, strips_of

RUNS = {"engine_run", "driven"}
# An engine that is run to find the fault, once the other recipe has opened the fuel, leaves both tests to be made.
TWICE_PROVED = {
    frozenset({"sensor-start-faults", other})
    for other in ("crash-check", "engine-out-in", "fuel-pump-lines", "panel-repair-paint", "structural-weld-repair")
}


def takes(reading: str) -> Callable[[Job], bool]:
    return lambda job: reading in job.measures


def at_step(step: ChainStep) -> Callable[[Job], bool]:
    """But the bars, hooked up once the weights stand."""
    return lambda job: CarJob(job.kinds, job.measures).step == step and "bar_preload" not in job.kinds


ONCE: dict[str, Callable[[Job], bool]] = {
    "wheel torque": takes("wheel_torque"),
    "weighing": at_step(ChainStep.WEIGHED),
    "rear toe": at_step(ChainStep.REAR_TOE),
    "front toe": takes("toe_front"),
    "bleed": takes("brake_bleed"),
    # The last look at lines and caps before an event comes after all work; the test before the car is loaded.
    "fuel leak test, cold": lambda job: (
        takes("fuel_leak")(job) and RUNS.isdisjoint(job.kinds) and "extinguisher" not in job.measures
    ),
    "fuel leak test, warm": lambda job: takes("fuel_leak")(job) and not RUNS.isdisjoint(job.kinds),
    "hub and arm closed": lambda job: takes("bearing_play")(job) and {"hub_opened", "joint_opened"} <= set(job.kinds),
    "hub and arm out": lambda job: {"wheel_off", "hub_opened", "joint_opened"} <= set(job.kinds),
    "belts in": lambda job: takes("belt_geometry")(job) and "seat_or_belt_moved" in job.kinds,
    "on its wheels": lambda job: "wheels_on" in job.kinds,
}


def more_than_once(car: Car) -> dict[str, list[str]]:
    done = {what: [job.title for job in car.jobs.values() if not job.before and is_(job)] for what, is_ in ONCE.items()}
    return {what: titles for what, titles in done.items() if len(titles) > 1}


def objections(car: Car, seeds: int = 3) -> list[str]:
    """In some of the orders that the links allow; a circle is an AssertionError."""
    links, strips = car.all_links(), strips_of(car)
    walks = (some_order(car.jobs, links, seed) for seed in range(seeds))
    return [fault for walk in walks for fault in faults([car.jobs[id] for id in walk], strips)]


@pytest.mark.parametrize("key", RECIPES)
def test_alone_nothing_is_done_twice(key: str) -> None:
    assert more_than_once(car_with([RECIPES[key]])) == {}


@pytest.mark.parametrize("first", RECIPES)
def test_two_recipes_are_measured_once_and_built_up_in_order(first: str) -> None:
    for then in RECIPES.keys() - {first}:
        car = car_with([RECIPES[first], RECIPES[then]])
        twice = more_than_once(car)
        if frozenset({first, then}) in TWICE_PROVED:
            assert len(twice.pop("fuel leak test, cold")) == 2
        assert (first, then, twice, objections(car)) == (first, then, {}, [])


def test_a_hub_of_the_left_and_an_arm_of_the_right_are_two() -> None:
    bearing, arm = RECIPES["wheel-bearing-studs"], RECIPES["steering-arm-rework"]
    for sides, hubs in {("left", "left"): 1, ("left", "right"): 2, ("", ""): 1, ("", "left"): 2}.items():
        car = car_with([at_side(bearing, sides[0]), at_side(arm, sides[1])])
        assert sum(takes("bearing_play")(job) for job in car.jobs.values()) == hubs, sides
        assert objections(car, seeds=20) == [] or sides == ("", "left")


def test_a_walker_objects_to_a_hub_that_is_closed_too_soon() -> None:
    def job(title: str, kinds: str, measures: str = "") -> Job:
        return Job(title, tuple(kinds.split()), tuple(measures.split()), ())

    hub, paint = job("Hub on", "hub_opened joint_opened", "bearing_play"), job("Prime the arm", "two_pack")
    assert faults([hub, paint], []) == ["the hub is closed in “Hub on” before “Prime the arm”"]
    assert faults([paint, hub], []) == []
    left, right = (job(f"Hub on, {side}", "hub_opened joint_opened", "bearing_play") for side in ("left", "right"))
    assert faults([left, right], []) == []
    assert len(faults([left, left], [])) == 1


def placed(car: Car, *titles: str) -> list[list[int]]:
    """Where these jobs come in some of the orders that the links allow."""
    walks = (some_order(car.jobs, car.all_links(), seed) for seed in range(30))
    names = [[car.jobs[id].title for id in walk] for walk in walks]
    return [[walk.index(title) for title in titles] for walk in names]


@pytest.mark.parametrize(
    ("keys", "titles"),
    [
        (("engine-out-in", "clutch-gearbox"), ("Lower the gearbox", "Lift the engine out")),
        (
            ("engine-out-in", "clutch-gearbox"),
            ("Lower the engine in and torque its mounts", "Offer the gearbox up and bolt it home"),
        ),
        (
            ("engine-mount", "engine-out-in"),
            ("Lower the engine in and torque its mounts", "Swap the mount and torque its bolts"),
        ),
        (
            ("engine-mount", "engine-out-in"),
            ("Start it: oil pressure, servo, throttle, leaks, fan", "Check throttle, exhaust, fan and wiring"),
        ),
        (("fuel-pump-lines", "panel-repair-paint"), ("Weld the patch in, short runs, then watch", "Run the new lines")),
        (
            ("steering-arm-rework", "crash-check"),
            ("Make safe: fuel, battery, airbags, tag", "Read the car as it stands, before the work"),
        ),
        (
            ("suspension-arm-replacement", "crash-check"),
            ("Make safe: fuel, battery, airbags, tag", "Raise the car and take the arms off"),
        ),
        (
            ("wheel-bearing-studs", "crash-check"),
            ("Make safe: fuel, battery, airbags, tag", "Wheel and brake off, hub out"),
        ),
        (
            ("suspension-arm-replacement", "steering-arm-rework"),
            ("Refit the arm with new nuts and pins", "Fit the tie rods and their ends"),
        ),
        (
            ("suspension-arm-replacement", "wheel-bearing-studs"),
            ("Hang the arms, bolts nipped, not clamped", "Refit hub and brake with a new hub nut"),
        ),
        (
            ("suspension-arm-replacement", "damper-spring-change"),
            ("Hang the arms, bolts nipped, not clamped", "Refit the dampers with new nuts"),
        ),
        (
            ("clutch-gearbox", "wheel-bearing-studs"),
            ("Refit hub and brake with a new hub nut", "Refit drive shafts, hub nuts, linkage and wiring"),
        ),
    ],
)
def test_nothing_goes_on_what_is_still_off(keys: tuple[str, ...], titles: tuple[str, ...]) -> None:
    for order in (keys, keys[::-1]):
        for first, then in placed(car_with(RECIPES[key] for key in order), *titles):
            assert first < then


@pytest.mark.parametrize("count", (3, 4))
def test_more_of_those_that_meet_at_a_corner(count: int) -> None:
    corner = (
        "steering-arm-rework", "wheel-bearing-studs", "suspension-arm-replacement", "damper-spring-change",
        "brake-overhaul", "wheels-tyres-spacers", "clutch-gearbox", "differential",
    )  # fmt: skip
    for keys in list(permutations(corner, count))[:: 7 if count == 3 else 31]:
        car = car_with(RECIPES[key] for key in keys)
        assert (keys, more_than_once(car), objections(car, seeds=1)) == (keys, {}, [])

"""Readings that are left over are taken in stretches of the chain, other jobs between. Common practice, no source."""

import pytest

from builds.readings.engine.car_job import STAGE, CarJob
from builds.readings.engine.order_of_work import order_of_work
from builds.readings.engine.stretches import stretches
from builds.work.engine.again import MEASURES_AGAIN
from tests.builds.readings.typed import typed

ALL = ("ride_height", "corner_weights", "camber", "toe_rear", "lock_clearance")


def parts(left, *titles, links=()):
    jobs = {at: typed(title) for at, title in enumerate(titles)}
    return stretches(left, jobs, [*links, *order_of_work(jobs, links)])


@pytest.mark.parametrize(
    ("titles", "told"),
    [
        ((), [ALL]),
        (("New rear springs",), [ALL]),
        (("Set toe", "Torque the wheels"), [ALL[:4], ALL[4:]]),
        (("Test drive",), [ALL]),
        (("Centre the rack", "Wheels on"), [ALL]),
        # What it disturbs and does not take is taken after it, whatever its step in the chain.
        (("Set camber",), [("ride_height", "corner_weights", "camber", "toe_rear", "lock_clearance")]),
        (("Corner balance",), [("ride_height", "corner_weights", "camber", "toe_rear", "lock_clearance")]),
        (("Set camber", "Weigh the car"), [("ride_height",), ALL[1:]]),
    ],
)
def test_a_stretch_ends_where_another_job_has_its_step(titles, told):
    assert parts(ALL, *titles) == told


def test_what_has_no_step_goes_with_the_last_before_the_drive():
    assert parts(("tyre_pressures", "belt_geometry", "own-3"), "Set ride height") == [
        ("tyre_pressures", "belt_geometry", "own-3")
    ]
    left = ("toe_rear", "lock_clearance", "belt_geometry", "pad_bedding")
    assert parts(left, "Set toe", "Test drive") == [("toe_rear",), ("lock_clearance", "belt_geometry"), left[3:]]
    assert parts(("belt_geometry", "pad_bedding"), "Test drive") == [("belt_geometry",), ("pad_bedding",)]


def test_how_the_car_stood_before_its_work_parts_nothing():
    jobs = {1: CarJob(measures=("ride_height",)), 2: CarJob(kinds=("spring_change",))}
    assert stretches(("tyre_pressures", "camber"), jobs, [(1, 2)]) == [("tyre_pressures", "camber")]


def test_there_is_a_mark_for_every_stretch():
    assert len(MEASURES_AGAIN) == len(set(STAGE.values())) + 1 == len(set(MEASURES_AGAIN))

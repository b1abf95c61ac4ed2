"""Brakes that are opened are bled before the plan ends."""

import pytest

from builds.steps.actions import steps
from tests.builds.readings.reading_kit import take
from tests.builds.readings.remeasure_kit import HOUR, add, again, before, finish
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.django_db


def test_brakes_that_are_opened_are_bled_whatever_the_car_must_have(cast):
    """Also where nobody has ever bled it, and from before the work is begun until it was."""
    car = VehicleFactory(garage=cast.garage)
    hose = add(car, cast.owner, "Brake hose chafed", "hydraulics_opened", systems=["brakes"])
    (job,) = again(car)
    assert job.title == "Measure again: brake bleed and leak check"
    assert before(job) == {"Brake hose chafed"}
    finish(hose, cast.owner)
    assert again(car) == [job]
    take(car, "brake_bleed", cast.helper, at=NOW + 3 * HOUR)
    assert again(car) == []
    finish(add(car, cast.owner, "New caliper", "hydraulics_opened"), cast.owner, hours=4)
    assert len(again(car)) == 1


def test_brakes_are_bled_by_whoever_says_so_and_not_where_the_work_was_dropped(cast):
    car = VehicleFactory(garage=cast.garage)
    hose = add(car, cast.owner, "New hose", "hydraulics_opened")
    bleed = add(car, cast.owner, "Bleed it", measures=["brake_bleed"])
    assert again(car) == []
    assert before(bleed) == {"New hose"}
    steps.drop(bleed, by=cast.owner, at=NOW + HOUR, reason="not needed")
    assert len(again(car)) == 1
    steps.drop(hose, by=cast.owner, at=NOW + HOUR, reason="not needed")
    assert again(car) == []


def test_a_cracked_upright_is_seen_to_before_hubs_go_into_it(cast):
    """New hubs written down by hand come apart and go together in one job; the strip of a recipe comes first."""
    car = VehicleFactory(garage=cast.garage)
    hubs = add(car, cast.owner, "Fit front hubs", "wheel_off", "hub_opened")
    crack = add(car, cast.owner, "Upright cracked, front left", "hub_opened", "bushing_or_mount", "joint_opened")
    assert before(hubs) == {"Upright cracked, front left"}
    assert before(crack) == set()

"""Readings that are left over are measured round what somebody typed, each stretch in a job of its own."""

import pytest

from builds.steps.actions import steps
from tests.builds.readings.reading_kit import require, take
from tests.builds.readings.remeasure_kit import HOUR, add, again, before, finish
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.django_db


class TestBesideWhatSomebodyTyped:
    """Toe and torque in somebody's own words have their place in the chain, and the rest is measured round them."""

    @pytest.fixture
    def heron(self, cast):
        heron = VehicleFactory(garage=cast.garage, name="Moth")
        keys = ("ride_height", "camber", "toe_front", "wheel_torque", "lock_clearance")
        require(heron, cast.owner, *keys)
        for key in keys:
            take(heron, key, cast.owner)
        return heron

    def titles(self, car):
        return sorted(job.title for job in again(car))

    def test_it_is_measured_before_toe_is_set_and_after_the_wheels_are_torqued(self, cast, heron, owner):
        add(heron, cast.owner, "Springs", "spring_change")
        (whole,) = again(heron)
        toe = add(heron, cast.owner, "Set toe", "jam_nut", measures=["toe_front"])
        torque = add(heron, cast.owner, "Torque wheels", measures=["wheel_torque"])
        first, last = (
            "Measure again: ride height, camber",
            "Measure again: tyre clearance at full lock",
        )
        assert self.titles(heron) == [first, last]
        whole.refresh_from_db()
        assert whole.title == first
        (behind,) = (job for job in again(heron) if job != whole)
        assert before(whole) == {"Springs"} and before(toe) == {first}
        assert before(torque) == {"Set toe"} and before(behind) == {"Torque wheels"}
        page = owner.get(f"/cars/{heron.pk}/").content.decode()
        assert page.count("To measure again") == 1

    def test_they_are_one_again_once_nothing_stands_between(self, cast, heron):
        add(heron, cast.owner, "Springs", "spring_change")
        toe = add(heron, cast.owner, "Set toe", "jam_nut", measures=["toe_front"])
        (whole, behind) = sorted(again(heron), key=lambda job: job.pk)
        steps.drop(toe, by=cast.owner, at=NOW + HOUR, reason="not needed")
        assert again(heron) == [whole]
        behind.refresh_from_db()
        assert behind.state == "dropped"

    def test_each_is_over_with_its_own_readings(self, cast, heron):
        finish(add(heron, cast.owner, "Springs", "spring_change"), cast.owner)
        add(heron, cast.owner, "Set toe", "jam_nut", measures=["toe_front"])
        for key in ("ride_height", "camber"):
            take(heron, key, cast.helper, at=NOW + 3 * HOUR)
        (behind,) = again(heron)
        assert behind.title == "Measure again: wheel torque, tyre clearance at full lock"

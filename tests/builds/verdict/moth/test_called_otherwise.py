"""A part, or a joint, that is called something else, and a part that was off the car and is said never to have been."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions as joints
from builds.joints.models import Joint
from builds.shelf.actions import shelf
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from parts.actions.parts import change
from parts.actions.places import car_place
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import tick_all
from tests.builds.verdict.ways_kit import DAY, WORK, said
from tests.factories import NOW, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)


def on(cast, car, name, **more):
    """A good part that was on the car all along."""
    part, place = PartFactory(garage=cast.garage, name=name, condition="good", **more), PlaceFactory(garage=cast.garage)
    told = {"quantity": 1, "by": cast.owner, "at": NOW - DAY}
    shelf.carry_out(part, "receive", target=place, **told)
    shelf.carry_out(part, "fit", source=place, car=car, all_along=True, **told)
    return part


class TestParts:
    @pytest.mark.parametrize(
        ("systems", "less", "field"),
        [([], {"name": "Bracket"}, "name"), (["steering"], {"systems": ["body"]}, "systems")],
    )
    def test_a_doubt_does_not_go_away_with_a_name(self, cast, car, systems, less, field):
        rod = on(cast, car, "Tie rod end", systems=systems)
        change(rod, by=cast.helper, at=NOW, condition="unknown")
        assert "nobody knows its history" in said(car, NOW + HOUR)
        with pytest.raises(Refused, match="Only the owner says that Tie rod end is no part of this: Steering") as no:
            change(rod, by=cast.helper, at=NOW, **less)
        assert no.value.field == field
        rod.refresh_from_db()
        change(rod, by=cast.helper, at=NOW, name="Tie rod end, left")
        change(rod, by=cast.owner, at=NOW, **less)

    def test_what_lies_on_the_shelf_and_is_good_may_be_called_anything(self, cast):
        rod = PartFactory(garage=cast.garage, name="Tie rod end", condition="good")
        change(rod, by=cast.helper, at=NOW, name="Bracket")

    def test_what_went_through_a_crash_is_not_good_by_a_helpers_word(self, cast, car):
        wasp = VehicleFactory(garage=cast.garage, name="Wasp")
        arm = on(cast, wasp, "Lower arm", single=True)
        jobs.add(wasp, by=cast.helper, at=NOW, title="Hit the bank", work=WORK, kinds=["crash"])
        move = shelf.carry_out(arm, "pull", quantity=1, source=car_place(wasp), by=cast.helper, at=NOW + HOUR)
        told = {"quantity": 1, "source": move.target, "car": car, "by": cast.helper, "at": NOW + 2 * HOUR}
        change(arm, by=cast.helper, at=NOW + 2 * HOUR, condition="new")
        with pytest.raises(Refused, match="was on Wasp in “Hit the bank”: have it inspected"):
            shelf.carry_out(arm, "fit", **told)
        change(arm, by=cast.owner, at=NOW + 2 * HOUR, condition="good")
        shelf.carry_out(arm, "fit", **told)

    def test_what_was_off_the_car_for_hours_is_not_taken_back_as_a_slip(self, cast, car):
        caliper = on(cast, car, "Front caliper", single=True)
        told = {"quantity": 1, "source": car_place(car), "by": cast.helper}
        slip = shelf.carry_out(caliper, "pull", at=NOW, **told)
        shelf.undo(slip, by=cast.helper, at=NOW + timedelta(minutes=30))
        pulled = shelf.carry_out(caliper, "pull", at=NOW + HOUR, **told)
        with pytest.raises(Refused, match="too long ago to undo"):
            shelf.undo(pulled, by=cast.helper, at=NOW + HOUR + timedelta(minutes=31))
        assert "Void: Brake bleed" in said(car, NOW + 2 * HOUR)


class TestJoints:
    def test_of_which_nobody_said_anything_its_name_does(self, cast, car, helper):
        helper.press(f"/cars/{car.pk}/joints/add/", {"name": "Wheel nuts, front left"})
        nuts = Joint.objects.get(vehicle=car)
        assert (nuts.systems, nuts.opened_by) == (["wheels"], ["joint_opened", "wheel_off"])
        joints.mark(nuts, by=cast.helper, at=NOW, key=uuid.uuid4())
        assert "Marked, not signed: Wheel nuts, front left." in said(car, NOW + HOUR)
        joints.sign(nuts, by=cast.owner, at=NOW, key=uuid.uuid4())
        job = jobs.add(
            car, by=cast.helper, at=NOW, title="Wheels off", work=WORK, systems=["wheels"], kinds=["wheel_off"]
        )
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        steps.sign(Job.objects.get(pk=job.pk), by=cast.owner, at=NOW + HOUR)
        take(car, "wheel_torque", cast.owner, at=NOW + 2 * HOUR)
        tick_all(cast, NOW + 2 * HOUR)
        assert verdict_of(car, NOW + 3 * HOUR).do_not_drive

    def test_one_that_lives_hang_on_is_opened_by_some_work(self, cast, car):
        bolt = joints.add(car, name="Bolt 7", systems=["suspension"])
        assert "joint_opened" in bolt.opened_by
        assert joints.add(car, name="Sump plug").opened_by == []

    @pytest.mark.parametrize("why", ["off", "wrench"])
    def test_one_that_is_not_as_it_must_be_does_not_come_off_the_list(self, cast, car, why):
        told = {"figure_mnm": 110_000, "figure_from": "manual"} if why == "off" else {}
        nuts = joints.add(car, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"], **told)
        if why == "wrench":
            cast.garage.gear.create(
                name="Wrench", kind="free", meaning="until", printed_on="2027-01-01", precision="day", made_at=NOW - DAY
            )
        more = {"torque_mnm": 60_000, "note": "no long bar here"} if why == "off" else {"wrench": "Wrench"}
        joints.mark(nuts, by=cast.helper, at=NOW, key=uuid.uuid4(), **more)
        joints.sign(nuts, by=cast.owner, at=NOW, key=uuid.uuid4())
        assert verdict_of(car, NOW + HOUR).state != "fit"
        with pytest.raises(Refused, match="that does not stand"):
            joints.retire(nuts, at=NOW + HOUR)

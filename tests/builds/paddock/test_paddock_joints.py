"""Joints at the event: marked and looked at from a phone, and those that are gone meanwhile."""

import re
import uuid
from datetime import timedelta

import pytest
from django.utils.html import escape

from builds.joints import actions as joints
from builds.joints.engine.joints import OFF_SAID
from builds.joints.models import Joint, JointMark
from builds.paddock import actions as paddock
from builds.paddock.engine import Write
from garage.actions.refused import Refused
from tests.builds.paddock.paddock_kit import JSON, write
from tests.factories import NOW, VehicleFactory


@pytest.fixture
def nuts(entry):
    return Joint.objects.create(vehicle=entry.vehicle, name="Wheel nuts", systems=["wheels"])


def acts(client, entry, nuts):
    items = client.get(f"/paddock/{entry.event_id}/now/", headers=JSON).json()["items"]
    return next(item["acts"] for item in items if item["item"] == f"joint-{nuts.pk}")


def test_a_loose_joint_offers_torque_and_a_marked_one_a_look_to_whoever_may(owner, helper, entry, nuts):
    assert acts(owner, entry, nuts) == acts(helper, entry, nuts) == ["marked"]
    page = owner.get(f"/paddock/{entry.event_id}/").content.decode()
    assert re.search(r'value="signed" data-asks="" hidden>', page)
    write(helper, entry, f"joint-{nuts.pk}", "marked", value="98")
    assert acts(owner, entry, nuts) == ["marked", "signed"]
    assert acts(helper, entry, nuts) == ["marked"]
    told = write(helper, entry, f"joint-{nuts.pk}", "signed", seen=1).json()["told"]
    assert told == "Tove worked on this: somebody else has to look at it and sign."
    assert write(owner, entry, f"joint-{nuts.pk}", "signed", seen=1).json()["told"] == ""
    assert acts(owner, entry, nuts) == ["marked"]


def test_who_looked_from_outside_is_named_as_on_the_page_of_the_joints(owner, cast, entry, nuts):
    joints.mark(nuts, by=cast.helper, at=NOW, key=uuid.uuid4(), torque_mnm=98_000)
    joints.sign(nuts, by=cast.owner, at=NOW, key=uuid.uuid4(), outsider="Pella")
    page = owner.get(f"/paddock/{entry.event_id}/").content.decode()
    assert "Last signed by Pella (from outside), Tue 2 Mar 17:00, written down by Ines." in page


def test_a_clash_whose_answer_was_lost_is_told_again_though_its_state_is_the_one_wanted(owner, helper, entry, nuts):
    write(owner, entry, f"joint-{nuts.pk}", "marked", value="98")
    key = uuid.uuid4()
    for _ in range(2):
        answer = write(helper, entry, f"joint-{nuts.pk}", "marked", value="110", key=key)
    again = helper.get(answer["Location"], headers=JSON).json()
    assert again["state"] == "marked" and again["clash"] and again["told"].startswith("It stands otherwise: ")
    assert nuts.marks.count() == 1


@pytest.mark.parametrize(("torque", "clash"), [("98", False), ("110", True), ("", True)])
def test_two_torques_of_which_one_comes_late_are_a_clash_and_shown(owner, helper, entry, nuts, torque, clash):
    write(owner, entry, f"joint-{nuts.pk}", "marked", value="98")
    answer = write(helper, entry, f"joint-{nuts.pk}", "marked", value=torque, at=NOW - timedelta(hours=1)).json()
    assert answer["clash"] is clash
    assert nuts.marks.count() == (1 if clash else 2)
    if clash:
        assert answer["told"] == (
            "Ines marked it, 98 N·m, Tue 2 Mar 17:00 meanwhile. That stands: look again, then say so once more."
        )
        write(helper, entry, f"joint-{nuts.pk}", "marked", value=torque, seen=answer["version"])
        assert nuts.marks.count() == 2


class TestFarOffItsFigure:
    """A question, not a wall: on the phone from what its page has, else in the answer, at the row."""

    @pytest.fixture
    def arm(self, entry):
        return Joint.objects.create(
            vehicle=entry.vehicle, name="Arm bolt", systems=["suspension"], figure_mnm=110_000, figure_from="manual"
        )

    @pytest.mark.parametrize(("units", "least", "most"), [("metric", "99", "121"), ("imperial", "73.0187", "89.2450")])
    def test_the_page_has_what_is_near_enough_in_the_unit_that_it_asks_for(
        self, helper, cast, entry, arm, units, least, most
    ):
        cast.garage.units = units
        cast.garage.save()
        page = helper.get(f"/paddock/{entry.event_id}/").content.decode()
        bounds = re.search(r'data-least="([^"]+)" data-most="([^"]+)"', page).groups()
        assert [float(bound) for bound in bounds] == pytest.approx([float(least), float(most)], abs=1e-4)
        assert f'data-off="{escape(OFF_SAID)}"' in page

    def test_one_without_a_figure_asks_nothing(self, helper, entry, nuts):
        assert "data-least" not in helper.get(f"/paddock/{entry.event_id}/").content.decode()

    @pytest.mark.parametrize("typed", ["60", "44 lb ft"])
    def test_without_a_reason_it_comes_back_as_a_question_and_with_one_it_is_taken(self, helper, entry, arm, typed):
        answer = write(helper, entry, f"joint-{arm.pk}", "marked", value=typed)
        assert answer.status_code == 422
        assert (answer.json()["told"], answer.json()["asks"]) == (OFF_SAID, "note")
        taken = write(helper, entry, f"joint-{arm.pk}", "marked", value=typed, note="The maker has a newer figure")
        assert (taken.json()["told"], taken.json()["asks"]) == ("", "")
        assert arm.marks.get().note == "The maker has a newer figure"


class TestAJointThatIsGone:
    """A phone without signal still shows it; what it sends later is refused in words."""

    @pytest.fixture
    def joint(self, cast, entry):
        return joints.add(
            entry.vehicle, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"], thread="", klass="",
            figure_mnm=None, figure_from="", wrench="", again_after_run=True,
        )  # fmt: skip

    @pytest.mark.parametrize("to", ["marked", "signed"])
    def test_off_the_list_it_takes_no_write(self, helper, cast, entry, joint, to):
        joints.retire(joint, at=NOW)
        answer = write(helper, entry, f"joint-{joint.pk}", to)
        assert answer.status_code == 422
        assert "not on the list any more" in answer.json()["told"]
        assert not JointMark.objects.exists()

    def test_one_of_a_car_that_is_not_entered_takes_none(self, helper, cast, entry, joint):
        other = joints.add(
            VehicleFactory(garage=cast.garage, name="Tug"), name="Hub nut", systems=["wheels"], opened_by=[],
            thread="", klass="", figure_mnm=None, figure_from="", wrench="", again_after_run=False,
        )  # fmt: skip
        assert write(helper, entry, f"joint-{other.pk}", "marked").status_code == 422
        assert not JointMark.objects.exists()

    def test_the_action_refuses_it_too(self, cast, entry, joint):
        joints.retire(joint, at=NOW)
        sent = Write(f"joint-{joint.pk}", "marked", 0, NOW, "", "")
        with pytest.raises(Refused, match="not on the list any more"):
            paddock.write(entry.event, sent, by=cast.helper, at=NOW, key=uuid.uuid4())

    def test_one_that_is_there_takes_it(self, helper, entry, joint):
        assert write(helper, entry, f"joint-{joint.pk}", "marked").status_code == 200
        assert JointMark.objects.get().joint == joint


@pytest.mark.parametrize(
    ("typed", "unit", "torque"),
    [("98", "N·m", 98_000), ("98", "", 132_870), ("98 lb ft", "N·m", 132_870), ("72", "lbf·ft", 97_618)],
)
def test_a_torque_is_read_in_the_unit_that_the_phone_asked_for_whatever_the_garage_reads_by_now(
    owner, cast, entry, nuts, typed, unit, torque
):
    page = owner.get(f"/paddock/{entry.event_id}/").content.decode()
    assert '<input type="hidden" name="unit" value="N·m">' in page
    cast.garage.units = "imperial"
    cast.garage.save()
    write(owner, entry, f"joint-{nuts.pk}", "marked", value=typed, unit=unit)
    assert round(nuts.marks.get().torque_mnm, -1) == round(torque, -1)


def test_the_wrench_is_the_one_that_stood_there_when_it_was_sent_and_none_where_none_was_said(owner, entry, nuts):
    page = f"/paddock/{entry.event_id}/"
    assert "Wrench" not in owner.get(page).content.decode()
    Joint.objects.filter(pk=nuts.pk).update(wrench="40-200 click")
    drawn = re.search(r'name="wrench".*?value="([^"]*)"', owner.get(page).content.decode(), re.DOTALL)
    for wrench in (drawn[1], "the beam", ""):
        write(owner, entry, f"joint-{nuts.pk}", "marked", value="98", seen=nuts.marks.count(), wrench=wrench)
    assert [mark.wrench for mark in nuts.marks.order_by("pk")] == ["40-200 click", "the beam", ""]


def test_so_are_pressures(owner, cast, entry):
    cast.garage.units = "imperial"
    cast.garage.save()
    write(owner, entry, f"press-{entry.pk}", "taken", value="1.9 1.9 1.8 1.8", unit="bar")
    values = entry.vehicle.readings.get().values
    assert sorted(values.values_list("amount", flat=True)) == [180_000, 180_000, 190_000, 190_000]

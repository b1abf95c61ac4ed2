"""Who looked at a joint and who wrote it down; two torques of one joint."""

import uuid
from datetime import timedelta

import pytest

from builds.joints.models import Joint, JointMark
from builds.verdict.facts.verdict import verdict_of
from tests.factories import NOW, MembershipFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def nuts(car):
    return Joint.objects.create(vehicle=car, name="Wheel nuts", systems=["wheels"], figure_mnm=110_000, figure_from="x")


def mark(client, joint, **data):
    return client.press(f"/joints/{joint.pk}/mark/", {"torque_mnm": "110", **data})


def sign(client, joint):
    return client.press(f"/joints/{joint.pk}/sign/")


def test_two_torques_from_two_forms_are_a_clash_with_what_was_typed_kept(owner, helper, nuts):
    drawn = helper.get(f"/joints/{nuts.pk}/mark/").context["form"]["after"].value()
    mark(owner, nuts, after=drawn, torque_mnm="105")
    answer = mark(helper, nuts, after=drawn, wrench="the small one")
    assert answer.context["form"].errors["__all__"] == [
        "Ines torqued it meanwhile to 105 N·m: agree which stands, then write it down."
    ]
    page = answer.content.decode()
    assert 'value="the small one"' in page and JointMark.objects.count() == 1
    mark(helper, nuts, after=answer.context["form"].last)
    assert JointMark.objects.count() == 2


def test_a_look_at_a_joint_says_who_and_who_wrote_it_down(owner, helper, cast, car, nuts):
    otto = MembershipFactory(garage=cast.garage, person__name="Otto")
    mark(helper, nuts)
    answer = helper.press(f"/joints/{nuts.pk}/sign/", {"who": otto.pk})
    assert answer.context["form"].errors["who"] == [
        "Tove worked on this and cannot write down another's look: Otto signs it."
    ]
    owner.press(f"/joints/{nuts.pk}/sign/", {"who": otto.pk})
    look = JointMark.objects.last()
    assert (look.by, look.written_by, look.alone) == (otto, cast.owner, False)
    assert "signed by Otto, written down by Ines" in owner.get(f"/cars/{car.pk}/joints/").content.decode()


def test_whoever_is_named_a_look_at_a_mark_that_is_not_the_last_goes_back_to_the_list(owner, helper, cast, car, nuts):
    otto = MembershipFactory(garage=cast.garage, person__name="Otto")
    mark(helper, nuts)
    seen = JointMark.objects.get().pk
    mark(helper, nuts, torque_mnm="112")
    answer = owner.press(f"/joints/{nuts.pk}/sign/", {"who": otto.pk, "of": seen})
    assert (answer.status_code, answer["Location"]) == (303, f"/cars/{car.pk}/joints/")
    assert "Wheel nuts was torqued anew meanwhile: look at that mark." in owner.get(answer["Location"]).content.decode()
    assert not JointMark.objects.exclude(signs=None).exists()


def test_somebody_from_outside_looks_at_a_joint(owner, cast, car, nuts):
    mark(owner, nuts)
    owner.press(f"/joints/{nuts.pk}/sign/", {"outsider": "Pella"})
    look = JointMark.objects.last()
    assert (look.outsider, look.by, look.alone) == ("Pella", cast.owner, False)
    page = owner.get(f"/cars/{car.pk}/joints/").content.decode()
    assert "signed by Pella (from outside), written down by Ines" in page
    assert not verdict_of(car, NOW).besides


def test_the_only_hand_signs_his_own_mark_and_the_verdict_says_so_until_it_is_torqued_anew(owner, cast, car, nuts):
    cast.helper.left_at = NOW
    cast.helper.save()
    mark(owner, nuts)
    sign(owner, nuts)
    assert JointMark.objects.last().alone
    assert verdict_of(car, NOW).besides == "Nobody but Ines has looked at 1 point."
    JointMark.objects.create(
        joint=nuts, by=cast.helper, at=NOW + timedelta(minutes=1), arrived_at=NOW, key=uuid.uuid4()
    )
    assert not verdict_of(car, NOW).besides

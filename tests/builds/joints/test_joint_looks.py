"""Who looked at a joint and who wrote it down; two torques of one joint."""

import uuid
from datetime import timedelta

import pytest

from builds.joints.models import Joint, JointMark
from builds.verdict.facts.verdict import verdict_of
from tests.factories import NOW, JobFactory, MembershipFactory, SpanFactory, VehicleFactory

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


def opened(car, cast, *crew, hours, systems=("wheels",)):
    """Work that opened the joint and ended so many hours ago, with these hands on it."""
    job = JobFactory(
        vehicle=car, title="Hubs", kinds=["joint_opened"], systems=list(systems), state="signed", made_by=cast.owner,
        finished_at=NOW - timedelta(hours=hours), signed_by=cast.owner, signed_at=NOW,
    )  # fmt: skip
    ended = NOW - timedelta(hours=hours)
    SpanFactory(job=job, from_at=ended - timedelta(hours=1), until_at=ended, crew=list(crew))


def offered(client, car):
    (row,) = client.get(f"/cars/{car.pk}/joints/").context["view"].wanting
    return row.may_sign


@pytest.fixture
def ends(car):
    return Joint.objects.create(vehicle=car, name="Rod end", systems=["wheels"], opened_by=["joint_opened"])


def look(client, joint):
    client.press(f"/joints/{joint.pk}/sign/")
    return JointMark.objects.exclude(signs=None).filter(joint=joint).exists()


def test_who_opened_it_with_another_is_no_second_pair_of_eyes(owner, helper, cast, car, ends):
    MembershipFactory(garage=cast.garage, person__name="Otto")
    opened(car, cast, cast.owner, cast.helper, hours=1)
    helper.press(f"/joints/{ends.pk}/mark/", {})
    assert not offered(owner, car)
    assert not look(owner, ends)
    answer = owner.press(f"/joints/{ends.pk}/sign/", {"who": ""})
    assert answer.context["form"].errors["who"] == ["Ines worked on this: somebody else has to look at it and sign."]


@pytest.mark.parametrize("case", ["another system", "before the last mark", "after the mark"])
def test_hands_on_other_work_or_at_another_time_keep_nobody_from_looking(owner, helper, cast, car, ends, case):
    MembershipFactory(garage=cast.garage, person__name="Otto")
    if case == "another system":
        opened(car, cast, cast.owner, hours=1, systems=["brakes"])
    if case == "before the last mark":
        opened(car, cast, cast.owner, hours=5)
        JointMark.objects.create(
            joint=ends, by=cast.helper, at=NOW - timedelta(hours=3), arrived_at=NOW, key=uuid.uuid4()
        )
    helper.press(f"/joints/{ends.pk}/mark/", {})
    if case == "after the mark":
        opened(car, cast, cast.owner, hours=-3)
        assert not offered(owner, car)  # it is loose again
        return
    assert offered(owner, car)
    assert look(owner, ends)


def test_where_all_hands_opened_it_the_owner_signs_and_the_verdict_says_so(owner, helper, cast, car, ends):
    opened(car, cast, cast.owner, cast.helper, hours=1)
    helper.press(f"/joints/{ends.pk}/mark/", {})
    assert look(owner, ends)
    assert JointMark.objects.last().alone
    assert verdict_of(car, NOW).besides == "Nobody but Ines has looked at 1 point."

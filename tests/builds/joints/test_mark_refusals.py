"""What is refused of a torque or a look, and what is kept of what was said, whichever page or phone said it."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions
from builds.joints.models import Joint, JointMark
from garage.actions.refused import Refused
from tests.factories import NOW


@pytest.fixture
def joint(car):
    told = {"figure_mnm": 100_000, "figure_from": "manual", "wrench": "Half inch"}
    return Joint.objects.create(vehicle=car, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"], **told)


@pytest.fixture
def told(cast):
    return {"by": cast.helper, "at": NOW}


def mark(joint, told, **more):
    return actions.mark(joint, **{**told, "key": uuid.uuid4(), "torque_mnm": 100_000, **more})


def test_the_torque_is_asked_for_where_the_maker_gives_one(cast, car, joint, told):
    with pytest.raises(Refused, match="Write down the torque it was brought to") as refused:
        mark(joint, told, torque_mnm=None)
    assert refused.value.field == "torque_mnm"
    clamp = Joint.objects.create(vehicle=car, name="Hose clamp", systems=["fuel"], opened_by=["fuel_line"])
    assert mark(clamp, told, torque_mnm=None).torque_mnm is None


def test_more_than_a_tenth_off_wants_a_reason(joint, told):
    for within in (90_000, 110_000):
        assert mark(joint, told, torque_mnm=within).torque_mnm == within
    for beyond in (89_999, 110_001):
        with pytest.raises(Refused, match="more than a tenth off"):
            mark(joint, told, torque_mnm=beyond, note="  ")
        assert mark(joint, told, torque_mnm=beyond, note=" new studs ").note == "new studs"


def test_the_same_key_counts_once_and_for_one_joint(car, joint, told):
    key = uuid.uuid4()
    first = mark(joint, told, key=key)
    assert mark(joint, told, key=key, torque_mnm=95_000) == first
    other = Joint.objects.create(vehicle=car, name="Tie rod", systems=["steering"], opened_by=["joint_opened"])
    with pytest.raises(Refused, match="used already, for something else"):
        mark(other, told, key=key)
    assert JointMark.objects.count() == 1


def test_of_two_torques_one_offline_the_second_hears_of_the_first(joint, told):
    first = mark(joint, told, after=0, typed="100 N·m")
    with pytest.raises(Refused, match="Tove torqued it meanwhile to 100 N·m: agree which stands") as refused:
        mark(joint, told, after=0)
    assert refused.value.field == "after"
    assert mark(joint, told, after=first.pk) and mark(joint, told)


def test_no_hand_is_later_than_when_it_was_heard_of(joint, told):
    early = mark(joint, told, at=NOW - timedelta(hours=2), arrived=NOW)
    assert (early.at, early.arrived_at) == (NOW - timedelta(hours=2), NOW)
    ahead = mark(joint, told, at=NOW + timedelta(hours=2), arrived=NOW)
    assert (ahead.at, ahead.arrived_at) == (NOW, NOW)
    plain = mark(joint, told)
    assert (plain.at, plain.arrived_at) == (NOW, NOW)


def test_what_was_said_is_kept_as_far_as_it_has_room(joint, told):
    kept = mark(joint, told, typed="9" * 41, wrench="w" * 61, note="n" * 201)
    assert (len(kept.typed), len(kept.wrench), len(kept.note)) == (40, 60, 200)
    assert (mark(joint, told).wrench, mark(joint, told, wrench="Click").wrench) == (
        "",
        "Click",
    )  # not said, not guessed


def test_a_look_is_at_the_last_mark_and_once(cast, joint, told):
    def sign(**more):
        return actions.sign(joint, by=cast.owner, at=NOW, key=uuid.uuid4(), **more)

    with pytest.raises(Refused, match="Wheel nuts has no mark yet: there is nothing to look at"):
        sign()
    first = mark(joint, told)
    last = mark(joint, told, at=NOW + timedelta(minutes=1))
    with pytest.raises(Refused, match="torqued anew meanwhile"):
        sign(of=first.pk)
    look = sign(of=last.pk)
    assert (look.signs, look.at) == (last, last.at)
    with pytest.raises(Refused, match="is signed already"):
        sign()


def test_several_are_marked_and_looked_at_or_none_of_them(cast, car, joint, told):
    other = Joint.objects.create(vehicle=car, name="Hub nut", systems=["wheels"], opened_by=["wheel_off"])
    marking = [actions.Marking(joint, {"torque_mnm": 100_000}), actions.Marking(other, {})]
    with pytest.raises(Refused, match="Wheel nuts: Write down the torque"):
        actions.mark_many([marking[1], actions.Marking(joint, {})], key=uuid.uuid4(), **told)
    assert not JointMark.objects.exists()
    marks = actions.mark_many(marking, key=uuid.uuid4(), **told)
    seen = list(zip((joint, other), marks, strict=True))
    look = {"by": cast.owner, "at": NOW}
    with pytest.raises(Refused, match="Hub nut: Hub nut was torqued anew meanwhile"):
        actions.sign_many([seen[0], (other, marks[0])], key=uuid.uuid4(), **look)
    assert actions.sign_many(seen, key=uuid.uuid4(), **look) == 2
    assert actions.sign_many([], key=uuid.uuid4(), **look) == 0
    assert JointMark.objects.exclude(signs=None).count() == 2


def test_two_joints_of_a_car_have_two_names(car, joint):
    with pytest.raises(Refused, match="has a joint of that name already") as refused:
        actions.add(car, name="WHEEL NUTS", systems=["wheels"], opened_by=["wheel_off"])
    assert refused.value.field == "name"
    actions.retire(joint, at=NOW)
    new = actions.add(car, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"])
    with pytest.raises(Refused, match="where the figure is from") as refused:
        actions.add(
            car, name="Tie rod", systems=["steering"], opened_by=["joint_opened"], figure_mnm=1, figure_from=" "
        )
    assert refused.value.field == "figure_from" and list(Joint.objects.kept()) == [new]

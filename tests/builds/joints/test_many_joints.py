"""Several joints are torqued, or looked at, in one form; a figure that stands there is no torque."""

import uuid

import pytest

from builds.joints import actions as joints
from builds.joints.facts import joint_lines
from builds.joints.models import Joint, JointMark
from garage.actions.refused import Refused
from tests.conftest import queries
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def three(car):
    names = ("Caliper bolts", "Tie-rod end", "Wheel nuts")
    return [
        joints.add(car, name=name, systems=["wheels"], figure_mnm=110_000, figure_from="build book") for name in names
    ]


def torqued(car):
    return f"/cars/{car.pk}/joints/torqued/"


def looked_at(car):
    return f"/cars/{car.pk}/joints/looked-at/"


def drawn(client, car):
    return client.get(torqued(car)).context["form"]


def sent(form, *done):
    """As the form sends it: every figure as it is drawn, these ticked."""
    data = {}
    for each in form.each:
        data |= {f"{each.prefix}-torque_mnm": "110", f"{each.prefix}-after": each.last}
        data |= {f"{each.prefix}-done": "on"} if each.joint in done else {}
    return data


def states(car):
    return {line.joint.name: line.standing.state for line in joint_lines(car.garage, [car], NOW)[car.pk]}


def mark(joint, by, **more):
    return joints.mark(joint, by=by, at=NOW, key=uuid.uuid4(), torque_mnm=110_000, **more)


def test_only_those_ticked_are_marked(helper, cast, car, three):
    first, _, third = three
    form = drawn(helper, car)
    assert [each.joint for each in form.each] == three
    answer = helper.press(torqued(car), sent(form, first, third))
    assert answer.status_code == 303
    assert states(car) == {"Caliper bolts": "unsigned", "Tie-rod end": "loose", "Wheel nuts": "unsigned"}
    assert {mark.typed for mark in JointMark.objects.all()} == {"110 N·m"}
    assert {mark.by for mark in JointMark.objects.all()} == {cast.helper}


def test_nothing_ticked_is_said(helper, car, three):
    answer = helper.press(torqued(car), sent(drawn(helper, car)))
    assert answer.context["form"].non_field_errors() == ["Tick at least one of them."]


def test_what_is_wrong_with_one_keeps_all_from_being_written(helper, car, three):
    data = sent(drawn(helper, car), *three)
    data[f"joint-{three[1].pk}-torque_mnm"] = "60"
    answer = helper.press(torqued(car), data)
    assert answer.status_code == 422
    assert "Tie-rod end: That is more than a tenth off the maker&#x27;s figure" in answer.content.decode()
    assert JointMark.objects.count() == 0
    data[f"joint-{three[1].pk}-note"] = "aluminium hub"
    assert helper.press(torqued(car), data).status_code == 303


def test_one_torqued_by_somebody_else_meanwhile_is_a_clash_that_is_said_once(helper, cast, car, three):
    data = sent(drawn(helper, car), *three)
    mark(three[0], cast.owner, typed="105 N·m")
    answer = helper.press(torqued(car), data)
    assert "Caliper bolts: Ines torqued it meanwhile to 105 N·m" in answer.content.decode()
    assert JointMark.objects.count() == 1
    assert helper.press(torqued(car), sent(answer.context["form"], *three)).status_code == 303


def test_of_several_torqued_by_somebody_else_meanwhile_each_is_said(helper, cast, car, three):
    """A figure that is wrong, or a clash that was said of one joint, covers up no clash of another."""
    data = sent(drawn(helper, car), *three)
    mark(three[1], cast.owner, typed="105 N·m")
    mark(three[2], cast.owner, typed="106 N·m")
    answer = helper.press(torqued(car), {**data, f"joint-{three[0].pk}-torque_mnm": "60"})
    for said in ("Caliper bolts: That is more", "Tie-rod end: Ines torqued it meanwhile to 105", "Wheel nuts: Ines"):
        assert said in answer.content.decode()
        form = answer.context["form"]
        data = sent(form, *three) | {f"{each.prefix}-after": each["after"].value() for each in form.each}
        answer = helper.press(torqued(car), data)
    assert answer.status_code == 303


def test_several_are_looked_at_in_one_form_and_none_is_ticked_beforehand(owner, cast, car, three):
    marks = [mark(joint, cast.helper) for joint in three]
    form = owner.get(looked_at(car)).context["form"]
    assert [key for key, _ in form.fields["marks"].choices] == [str(made.pk) for made in marks]
    assert form["marks"].value() is None
    assert owner.press(looked_at(car), {}).context["form"].errors["marks"] == ["Tick at least one of them."]
    answer = owner.press(looked_at(car), {"marks": [marks[0].pk, marks[2].pk]})
    assert answer.status_code == 303
    assert states(car) == {"Caliper bolts": "stands", "Tie-rod end": "unsigned", "Wheel nuts": "stands"}


def test_nobody_is_offered_his_own_torque(helper, cast, car, three):
    made = mark(three[0], cast.helper)
    form = helper.get(looked_at(car)).context["form"]
    assert form.fields["marks"].choices == []
    assert helper.press(looked_at(car), {"marks": [made.pk]}).status_code == 422
    with pytest.raises(Refused, match="Caliper bolts: Tove worked on this"):
        joints.sign_many([(three[0], made)], by=cast.helper, at=NOW, key=uuid.uuid4())


def test_one_torqued_anew_since_it_was_drawn_is_looked_at_again(owner, cast, car, three):
    made = mark(three[0], cast.helper)
    mark(three[0], cast.helper)
    assert owner.press(looked_at(car), {"marks": [made.pk]}).status_code == 422
    with pytest.raises(Refused, match="torqued anew meanwhile"):
        joints.sign_many([(three[0], made)], by=cast.owner, at=NOW, key=uuid.uuid4())


def test_a_joint_of_another_car_is_not_marked(helper, cast, car, three):
    other = joints.add(VehicleFactory(garage=cast.garage), name="Sump plug")
    helper.press(torqued(car), {f"joint-{other.pk}-done": "on", f"joint-{other.pk}-torque_mnm": "35"})
    assert Joint.objects.get(pk=other.pk).marks.count() == 0


def test_the_list_of_joints_leads_there(helper, viewer, car, three):
    page = helper.get(f"/cars/{car.pk}/joints/").content.decode()
    assert torqued(car) in page
    assert torqued(car) not in viewer.get(f"/cars/{car.pk}/joints/").content.decode()


def test_the_form_takes_the_same_queries_however_many_joints_are_loose(helper, car, three):
    few = queries(helper, torqued(car))
    for number in range(6):
        joints.add(car, name=f"Bolt {number}", systems=["wheels"])
    assert queries(helper, torqued(car)) == few

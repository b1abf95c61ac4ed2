"""Joints of a car: written down, marked, signed, opened by work, due after a run."""

from datetime import timedelta

import pytest

from builds.joints.facts import joint_lines
from builds.joints.models import Joint, JointMark
from builds.steps.actions import steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.span import Span
from tests.builds.joints.joint_kit import FORM, mark, sign, state
from tests.conftest import queries
from tests.factories import NOW, JobFactory

pytestmark = pytest.mark.usefixtures("now")


def said(car):
    return [reason.sentence for reason in verdict_of(car, NOW).reasons]


def off_and_on(car, at, *, kinds=("wheel_off",), systems=("wheels",)):
    job = JobFactory(
        vehicle=car, title="Rotate the wheels", kinds=list(kinds), systems=list(systems),
        state="signed", finished_at=at, signed_at=at, signed_by=car.garage.memberships.first(),
    )  # fmt: skip
    Span.objects.create(job=job, state="in_hand", from_at=at - timedelta(hours=1), until_at=at, by=job.signed_by)
    return job


def test_written_down_it_is_loose_until_somebody_marks_it(car, nuts):
    assert (nuts.figure_mnm, nuts.safety) == (110_000, True)
    assert state(car) == "loose"
    assert "Loose: Wheel nuts, front left. Nobody has marked it yet." in said(car)
    assert verdict_of(car, NOW).do_not_drive


def test_marked_it_waits_for_a_second_person_and_signed_it_stands(owner, helper, car, nuts):
    assert mark(helper, nuts).status_code == 303
    assert state(car) == "unsigned" and verdict_of(car, NOW).do_not_drive
    sign(owner, nuts)
    assert state(car) == "stands" and not said(car)


def test_whoever_put_the_mark_on_cannot_sign_it(helper, car, nuts):
    mark(helper, nuts)
    answer = sign(helper, nuts)
    assert (state(car), answer.status_code) == ("unsigned", 422)
    assert answer.context["form"].errors["who"] == ["Tove worked on this: somebody else has to look at it and sign."]


def test_a_mark_put_on_since_the_page_was_drawn_is_not_signed_unseen(owner, helper, car, nuts):
    mark(helper, nuts)
    drawn = JointMark.objects.get()
    mark(helper, nuts, torque_mnm="112")
    owner.press(f"/joints/{nuts.pk}/sign/", {"of": drawn.pk})
    assert state(car) == "unsigned"
    page = owner.get(f"/cars/{car.pk}/joints/").content.decode()
    assert "was torqued anew meanwhile" in page
    owner.press(f"/joints/{nuts.pk}/sign/", {"of": JointMark.objects.last().pk})
    assert state(car) == "stands"


def test_in_a_garage_of_one_he_signs_alone_and_the_list_says_so(owner, cast, car, nuts):
    cast.helper.left_at = NOW
    cast.helper.save()
    mark(owner, nuts)
    sign(owner, nuts)
    assert JointMark.objects.get(signs__isnull=False).alone
    assert "signed by Ines, alone" in owner.get(f"/cars/{car.pk}/joints/").content.decode()


def test_whom_the_owner_does_not_let_sign_cannot(owner, helper, cast, car, nuts):
    cast.helper.may_sign = False
    cast.helper.save()
    mark(owner, nuts)
    sign(helper, nuts)
    assert state(car) == "unsigned"


def test_work_of_its_kind_takes_the_mark_away_and_only_a_new_one_mends_it(owner, helper, car, nuts):
    mark(helper, nuts)
    sign(owner, nuts)
    off_and_on(car, NOW + timedelta(minutes=5))
    assert state(car) == "loose"
    assert any("pened by “Rotate the wheels” on" in line for line in said(car))


def test_work_of_another_kind_or_on_another_system_leaves_it(owner, helper, car, nuts):
    mark(helper, nuts)
    sign(owner, nuts)
    off_and_on(car, NOW + timedelta(minutes=5), kinds=["paint"])
    Joint.objects.update(opened_by=["wheel_off", "joint_opened"])
    off_and_on(car, NOW + timedelta(minutes=5), kinds=["joint_opened"], systems=["brakes"])
    assert state(car) == "stands"


def test_a_wheel_that_was_off_was_off_whatever_the_job_was_about(owner, helper, car, nuts):
    mark(helper, nuts)
    sign(owner, nuts)
    off_and_on(car, NOW + timedelta(minutes=5), systems=["brakes"])
    assert state(car) == "loose"


def test_work_in_hand_leaves_it_loose(owner, helper, car, nuts):
    mark(helper, nuts)
    sign(owner, nuts)
    job = JobFactory(vehicle=car, title="Wheels off", kinds=["wheel_off"], systems=["wheels"])
    owner.press(f"/jobs/{job.pk}/start/")
    assert state(car) == "loose"


def test_work_that_was_only_finished_still_opened_it_when_the_job_is_opened_again(owner, helper, cast, car, nuts):
    job = JobFactory(vehicle=car, title="Wheels off", kinds=["wheel_off"])
    mark(helper, nuts)
    sign(owner, nuts)
    told = {"by": cast.owner, "at": NOW + timedelta(minutes=5)}
    steps.finish(job, **told)
    steps.reopen(job, reason="One nut lacks", **told)
    assert state(car) == "loose"
    steps.drop(job, reason="Not now", **told)
    assert state(car) == "loose"


def test_after_the_first_session_it_is_due_again(owner, helper, car, nuts):
    mark(helper, nuts)
    sign(owner, nuts)
    off_and_on(car, NOW + timedelta(hours=2), kinds=["first_run"], systems=[])
    assert state(car) == "due"
    assert "Due for its re-torque: Wheel nuts, front left." in " ".join(said(car))


def test_work_of_long_ago_still_opens_what_was_marked_before_it(owner, helper, car, nuts):
    mark(helper, nuts)
    sign(owner, nuts)
    off_and_on(car, NOW + timedelta(days=1))
    later = NOW + timedelta(days=900)
    (line,) = joint_lines(car.garage, [car], later)[car.pk]
    assert line.standing.state == "loose"


def test_a_job_shows_the_joints_that_it_opens_and_how_it_leaves_a_weld(owner, helper, car, nuts):
    mark(helper, nuts)
    job = JobFactory(vehicle=car, kinds=["wheel_off"], systems=["wheels"], weld="welded")
    page = owner.get(f"/jobs/{job.pk}/").content.decode()
    assert "Finished, this job leaves the weld welded out, and not inspected." in page
    assert f'action="/joints/{nuts.pk}/sign/"' in page and "110 N·m, workshop manual" in page
    other = JobFactory(vehicle=car, kinds=["paint"], systems=["wheels"])
    assert 'id="joints"' not in owner.get(f"/jobs/{other.pk}/").content.decode()
    assert f'href="/cars/{car.pk}/joints/"' in owner.get(f"/cars/{car.pk}/").content.decode()


def test_a_job_that_opens_one_joint_or_thirty_takes_the_same_queries(owner, car, nuts):
    job = JobFactory(vehicle=car, kinds=["wheel_off"], systems=["wheels"])
    one = queries(owner, f"/jobs/{job.pk}/")
    for number in range(29):
        Joint.objects.create(vehicle=car, name=f"Joint {number}", opened_by=["wheel_off"])
    assert queries(owner, f"/jobs/{job.pk}/") == one


@pytest.mark.parametrize("name", ["systems", "opened_by"])
def test_a_helper_does_not_talk_a_joint_out_of_safety(owner, helper, car, nuts, name):
    mark(helper, nuts)
    answer = helper.press(f"/joints/{nuts.pk}/", {**FORM, name: [], "wrench": "40-200"})
    assert answer.status_code == 422 and "40-200" in answer.content.decode()
    assert name in answer.context["form"].errors and state(car) == "unsigned"
    answer = owner.press(f"/joints/{nuts.pk}/", {**FORM, name: []})
    assert answer.status_code == 422 and "was torqued, and that does not stand" in answer.content.decode()
    sign(owner, nuts)
    assert owner.press(f"/joints/{nuts.pk}/", {**FORM, name: []}).status_code == 303
    added = {**FORM, name: ["brakes"] if name == "systems" else ["hub_opened"]}
    assert helper.press(f"/joints/{nuts.pk}/", added).status_code == 303


def test_far_off_the_figure_wants_a_reason(helper, car, nuts):
    answer = mark(helper, nuts, torque_mnm="80,5")
    assert answer.status_code == 422 and "80,5" in answer.content.decode()
    assert "more than a tenth off the maker&#x27;s figure" in answer.content.decode()
    assert mark(helper, nuts, torque_mnm="80,5", note="alloy wheel, its maker says so")
    assert JointMark.objects.get().torque_mnm == 80_500


@pytest.mark.parametrize("typed", ["", "NaN", "1e5", "-4", "0", "x" * 5000])
def test_a_torque_that_is_none_is_said_at_the_field(helper, nuts, typed):
    answer = mark(helper, nuts, torque_mnm=typed)
    assert answer.status_code == 422 and answer.context["form"].errors
    assert not JointMark.objects.exists()


def test_a_joint_that_hurts_nobody_only_wants_its_mark(owner, helper, car):
    owner.press(f"/cars/{car.pk}/joints/add/", {"name": "Sump plug", "systems": ["engine"]})
    plug = Joint.objects.get()
    assert said(car) == ["No torque mark: Sump plug. Nobody has marked it yet."]
    assert not verdict_of(car, NOW).do_not_drive
    mark(helper, plug, torque_mnm="")
    assert state(car) == "stands"


def test_a_figure_without_its_source_and_a_name_twice_are_refused(owner, car, nuts):
    answer = owner.press(f"/cars/{car.pk}/joints/add/", {**FORM, "figure_from": ""})
    assert "already" in str(answer.context["form"].errors["name"])
    answer = owner.press(f"/cars/{car.pk}/joints/add/", {**FORM, "name": "B", "figure_from": ""})
    assert "where the figure is from" in str(answer.context["form"].errors["figure_from"])


def test_a_mark_is_never_changed(helper, nuts):
    mark(helper, nuts)
    row = JointMark.objects.get()
    row.torque_mnm = 5
    with pytest.raises(TypeError):
        row.save()
    with pytest.raises(TypeError):
        JointMark.objects.update(torque_mnm=5)


def test_taken_off_the_list_it_says_nothing_any_more(owner, car, nuts):
    owner.press(f"/joints/{nuts.pk}/retire/")
    assert joint_lines(car.garage, [car], NOW) == {} and not said(car)
    assert mark(owner, nuts).status_code == 404

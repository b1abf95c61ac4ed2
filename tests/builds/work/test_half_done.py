"""What is not left half done is put down by hand alone; whatever is put down is seen by those whose it was."""

from datetime import timedelta

import pytest

from builds.steps.actions import jobs, links, steps
from builds.work.engine.half_done import is_kept_whole
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.plan.plan_kit import job
from tests.factories import NOW, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")
HALF = "“Weld the arm” on Wren is in hand, and is not left half done: finish it first."
KEPT_WHOLE = (
    *({"kinds": [kind]} for kind in ("part_weld", "chassis_weld", "hot_work", "glass_bonding", "paint")),
    *({"kinds": [kind]} for kind in ("paint_under_joint", "two_pack")),
    *({"measures": [taken], "splits": False} for taken in ("wheel_torque", "joint_torque", "belt_torque")),
)


@pytest.fixture
def wren(cast):
    return VehicleFactory(garage=cast.garage, name="Wren")


@pytest.fixture
def weld(wren, cast):
    return job(wren, cast, "Weld the arm", kinds=["part_weld"])


@pytest.fixture
def sort_bolts(wren, cast):
    return job(wren, cast, "Sort the bolts")


def begin(row, by, at=NOW, **more):
    return steps.start(Job.objects.get(pk=row.pk), by=by, at=at, **more)


def state(row):
    return Job.objects.values_list("state", "state_note").get(pk=row.pk)


@pytest.mark.parametrize("more", KEPT_WHOLE)
def test_what_is_not_left_half_done_is_not_put_down_for_something_else(cast, weld, sort_bolts, more):
    Job.objects.filter(pk=weld.pk).update(**({"kinds": []} | more))
    begin(weld, cast.owner)
    with pytest.raises(Refused) as why:
        begin(sort_bolts, cast.owner)
    assert str(why.value) == HALF
    assert state(weld) == ("in_hand", "") and state(sort_bolts)[0] == "open"
    steps.stop(Job.objects.get(pk=weld.pk), by=cast.owner, at=NOW)
    begin(sort_bolts, cast.owner, at=NOW + timedelta(hours=1))  # the air of two-pack has cleared by then


@pytest.mark.parametrize("more", [{"kinds": ["spring_change"]}, {"measures": ["wheel_torque"]}, {"splits": False}])
def test_other_work_is_put_down_and_that_is_said(cast, weld, sort_bolts, more):
    Job.objects.filter(pk=weld.pk).update(**({"kinds": []} | more))
    begin(weld, cast.owner)
    assert begin(sort_bolts, cast.owner) == ["“Weld the arm” is put down."]
    assert state(weld) == ("waiting", "")  # his own doing


def test_somebody_elses_weld_is_not_put_down_by_taking_him_along_but_goes_on_with_those_who_stay(
    cast, weld, sort_bolts
):
    begin(weld, cast.helper)
    with pytest.raises(Refused, match="not left half done"):
        begin(sort_bolts, cast.owner, crew=[cast.owner, cast.helper])
    steps.stop(Job.objects.get(pk=weld.pk), by=cast.helper, at=NOW)
    begin(weld, cast.helper, crew=[cast.helper, cast.owner])
    assert begin(sort_bolts, cast.owner) == ["“Weld the arm” goes on with Tove."]


def test_what_comes_first_and_is_begun_late_says_what_should_have_waited(cast, wren, weld, owner):
    begin(weld, cast.helper)
    more = {"by": cast.owner, "at": NOW, "work": (30, 60, 90), "rank": "needed"}
    jig = jobs.add(wren, title="Build the jig", **more)
    links.add(jig, Job.objects.get(pk=weld.pk))
    told = words(owner.press(f"/jobs/{jig.pk}/start/", follow=True).content.decode())
    assert "“Weld the arm” comes after it and is in hand: see whether that must wait." in told
    assert state(weld)[0] == "in_hand"


def test_whose_work_somebody_else_put_down_sees_it_on_today_until_he_goes_on(
    cast, wren, weld, sort_bolts, owner, helper
):
    Job.objects.filter(pk=weld.pk).update(kinds=[])
    begin(weld, cast.helper)
    begin(sort_bolts, cast.owner, crew=[cast.owner, cast.helper])
    assert state(weld) == ("waiting", "Ines put it down for “Sort the bolts”.")

    def told(client):
        people = client.get("/").context["view"].people
        return {person.name: [card.note for card in person.put_down] for person in people}

    job(wren, cast, "Bleed the brakes", rank="safety", weight=9)  # that is next for Tove
    assert told(helper) == {"Tove": ["Ines put it down for “Sort the bolts”."], "Ines": [], "Priya": []}
    for path in ("/", f"/jobs/{weld.pk}/", f"/cars/{weld.vehicle_id}/"):
        assert "Ines put it down for “Sort the bolts”." in words(helper.get(path).content.decode()), path
    begin(weld, cast.helper)
    assert state(weld) == ("in_hand", "") and told(helper)["Tove"] == []


def test_a_button_pressed_by_somebody_else_is_told_too(cast, weld, helper):
    begin(weld, cast.helper)
    steps.stop(Job.objects.get(pk=weld.pk), by=cast.owner, at=NOW)
    assert state(weld) == ("waiting", "Ines put it down.")
    begin(weld, cast.helper)
    steps.stop(Job.objects.get(pk=weld.pk), by=cast.helper, at=NOW)
    assert state(weld) == ("waiting", "")


def test_a_long_title_is_told_as_far_as_there_is_room(cast, weld, sort_bolts):
    Job.objects.filter(pk=weld.pk).update(kinds=[])
    Job.objects.filter(pk=sort_bolts.pk).update(title="b" * 120)
    cast.owner.person.name = "I" * 60
    begin(weld, cast.helper)
    begin(sort_bolts, cast.owner, crew=[cast.owner, cast.helper])
    assert len(state(weld)[1]) <= 200


def test_the_rule_by_itself():
    class Bare:
        kinds, measures, splits = ("wheel_off",), ("wheel_torque",), True

    assert not is_kept_whole(Bare())
    Bare.splits = False
    assert is_kept_whole(Bare())

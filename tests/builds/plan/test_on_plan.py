"""How entered cars will stand on the day: by the plan on the wall, wherever a car is shown."""

import uuid
from datetime import date, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.joints import actions as joints
from builds.paper.pages.checklist import checklist_rows
from builds.plan.facts.prospects import prospects
from builds.plan.facts.stored import shown
from builds.readings.actions.remeasure import settle
from builds.scrutineering.actions import check_lists
from builds.scrutineering.models.check import CheckItem
from garage.actions import gear, shares
from garage.models import Gear
from tests.builds.plan.plan_kit import enter, evenings, job, planned
from tests.builds.readings.reading_kit import require, take
from tests.builds.verdict.moth_kit import tick_all
from tests.factories import NOW, HoldPointFactory, VehicleFactory

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


def prospect(cast, car, at=NOW):
    return prospects(cast.garage, at, [car], shown(cast.garage))[car.pk]


def said(cast, car, at=NOW):
    return [each.sentence for each in prospect(cast, car, at).on_plan.reasons]


def test_what_the_plan_ends_in_time_is_not_in_the_way_on_the_day(cast, car):
    job(car, cast)
    enter(car)
    planned(cast.garage)
    found = prospect(cast, car)
    assert len(found.verdict.reasons) == 1
    assert found.on_plan.reasons == ()
    assert found.on_plan.state == "not_known"  # nobody has recorded readings, gear and the rest


def test_what_ends_too_late_has_no_place_or_is_new_stays(cast, car):
    job(car, cast, "Long", likely_minutes=300, high_minutes=600)
    enter(car, NOW + DAY)
    planned(cast.garage)
    (late,) = said(cast, car)
    assert late.startswith("Open needed job: “Long”. The plan ends it ")
    assert late.endswith(", too late.")
    job(car, cast, "New", rank="safety")
    assert said(cast, car)[0] == "Open safety job: “New”. It came after the plan."


def test_without_a_plan_work_stays(cast, car):
    job(car, cast)
    enter(car)
    assert prospect(cast, car).on_plan.sentence == "There is no plan yet."


def test_work_that_should_be_over_by_now_is_not_taken_as_done(cast, car):
    job(car, cast)
    enter(car)
    planned(cast.garage)
    later = NOW + timedelta(hours=3)
    assert said(cast, car, later) == ["Open needed job: “Fit the fan”. The plan had it done Tue 19:00."]


def test_a_car_that_goes_nowhere_has_no_day(cast, car):
    assert prospect(cast, car).on_plan is None


def test_gear_is_judged_on_the_day(cast, car):
    entry = enter(car)
    last = entry.event.ends_at.date() - DAY
    Gear.objects.create(
        garage=cast.garage, vehicle=car, kind="belts", name="Belts", meaning="until",
        printed_on=last, precision="day", made_at=NOW,
    )  # fmt: skip
    gear.need(car, kinds=["belts"], by=cast.owner, at=NOW)
    (sentence,) = said(cast, car)
    assert sentence.startswith("Out of date on the day: Belts.")


def test_the_same_sentence_wherever_the_car_is_shown(owner, client, cast, car, now):
    HoldPointFactory(job=job(car, cast, rank="safety"), what="Crack test")
    job(car, cast, "New hose")
    entry = enter(car)
    planned(cast.garage)
    job(car, cast, "Late find", rank="safety")
    sentence = prospect(cast, car).on_plan.sentence
    assert sentence.startswith(
        "On plan, 1 of the 3 things still stands in the way on the day: "
        "Open safety job: “Late find”. It came after the plan. "
    )
    assert sentence.endswith(" is not made.")
    _, token = shares.make(by=cast.owner, at=NOW, days=3, event=entry.event)
    paths = ("/", f"/cars/{car.pk}/", f"/events/{entry.event_id}/")
    for path in paths:
        assert sentence in owner.get(path).content.decode(), path
    assert sentence in client.get(f"/shared/{token}/").content.decode()
    assert checklist_rows(entry, NOW).on_plan == sentence


def fleet(cast, count):
    for _ in range(count):
        car = VehicleFactory(garage=cast.garage)
        HoldPointFactory(job=job(car, cast, rank="safety"))
        enter(car)
        Gear.objects.create(
            garage=cast.garage, vehicle=car, kind="belts", name="Belts", meaning="until",
            printed_on=date(2026, 1, 1), precision="day", made_at=NOW,
        )  # fmt: skip
        gear.need(car, kinds=["belts"], by=cast.owner, at=NOW)


def test_the_same_queries_for_one_car_and_for_twelve(cast):
    evenings(cast.owner)
    counts = []
    for more in (1, 11):
        fleet(cast, more)
        planned(cast.garage)
        cars = list(cast.garage.vehicles.all())
        plan = shown(cast.garage)
        with CaptureQueriesContext(connection) as found:
            rows = prospects(cast.garage, NOW, cars, plan)
        assert all(row.on_plan.reasons for row in rows.values())
        counts.append(len(found))
    assert counts[0] == counts[1]


def test_a_joint_and_a_tick_that_the_plan_undoes_are_not_taken_as_they_are(cast, car):
    entry = enter(car)
    joint = joints.add(car, name="Arm bolt", systems=["suspension"], opened_by=["joint_opened"])
    joints.mark(joint, by=cast.helper, at=NOW, key=uuid.uuid4())
    joints.sign(joint, by=cast.owner, at=NOW, key=uuid.uuid4())
    check_lists.make(entry, by=cast.owner, at=NOW)
    tick_all(cast, NOW)
    job(car, cast, "New bush", kinds=["joint_opened"], systems=["suspension"], rank="safety")
    planned(cast.garage)
    then = prospect(cast, car).on_plan
    assert [reason.sentence for reason in then.reasons] == ["To be marked again: Arm bolt. “New bush” opens it."]
    touched = sum("suspension" in item.systems or "joint_opened" in item.kinds for item in CheckItem.objects.all())
    assert f"{touched} scrutineering items are ticked" in then.on_the_way


def test_a_reading_that_the_plan_undoes_is_taken_as_it_will_be(cast, car):
    enter(car)
    require(car, cast.owner, "toe_front")
    take(car, "toe_front", cast.owner)
    job(car, cast, "New bush", kinds=["bushing_or_mount"], systems=["suspension"], rank="safety")
    planned(cast.garage)
    assert any("“New bush” undoes it" in sentence for sentence in said(cast, car))
    settle(car, by=cast.owner, at=NOW)
    planned(cast.garage)
    assert not any("“New bush” undoes it" in sentence for sentence in said(cast, car))


def test_a_reason_is_not_said_again_of_the_day_on_the_page_of_the_event(owner, cast, car, now):
    car.state = "stands"
    car.save()
    entry = enter(car)
    planned(cast.garage)
    assert prospect(cast, car).on_plan.sentence.count("The car is on stands") == 1

    def line():
        return owner.get(f"/events/{entry.event_id}/").context["lines"][0]

    assert line().on_plan is None
    job(car, cast, "Late find", rank="safety")
    assert "It came after the plan." in line().on_plan.sentence

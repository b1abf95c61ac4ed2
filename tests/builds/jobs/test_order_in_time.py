"""The order of work is drawn anew before the next plan, whatever lets work count again."""

from datetime import timedelta

import pytest
from django.core.management import call_command

from builds.plan.actions.follow import follow, make_plan
from builds.steps.actions import jobs, links, steps
from builds.work.engine.urgency import find_cycle
from builds.work.facts.waits import following
from builds.work.models.link import Link
from tests.builds.plan.plan_kit import enter, evenings, planned
from tests.factories import NOW, HoldPointFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
HOUR = timedelta(hours=1)
DAY = 24 * HOUR
WEIGHED = ["ride_height", "corner_weights"]


@pytest.fixture
def cars(cast):
    evenings(cast.owner)
    return [VehicleFactory(garage=cast.garage, name=name) for name in ("Heron", "Badger", "Wren")]


def add(car, by, title, *kinds, **more):
    more.setdefault("rank", "needed")
    more.setdefault("lowered_because", "only its order counts here")
    return jobs.add(car, by=by, at=NOW, title=title, work=(30, 60, 90), kinds=list(kinds), **more)


def circle():
    return find_cycle(list(Link.objects.standing().values_list("before_id", "after_id")))


def put_off(cast, car):
    """Springs put off until the car has left, a weighing that does not wait for them, and the entry."""
    entry = enter(car)
    springs = add(car, cast.owner, "Springs", "spring_change", rank="wanted", earliest_at=entry.event.due_at)
    weigh = add(car, cast.owner, "Weigh", measures=WEIGHED)
    planned(cast.garage)
    assert weigh not in following(springs)
    return springs, weigh, entry


def test_work_that_goes_on_after_its_hold_point_is_ahead_of_the_measuring(cast, cars):
    arm = add(cars[0], cast.owner, "New arm", "steering_arm", systems=["steering"], rank="")
    HoldPointFactory(job=arm)
    steps.start(arm, by=cast.helper, at=NOW)
    steps.finish(arm, by=cast.helper, at=NOW)
    toe = add(cars[0], cast.owner, "Set toe", measures=["toe_front"])
    arm.refresh_from_db()
    steps.release(arm, by=cast.helper, at=NOW)
    planned(cast.garage)
    assert toe in following(arm)


def test_work_put_off_is_ahead_of_the_weighing_once_its_event_is_off(cast, cars, owner):
    springs, weigh, entry = put_off(cast, cars[0])
    assert owner.press(f"/entries/{entry.pk}/delete/").status_code == 303
    cast.garage.refresh_from_db()
    follow(cast.garage, at=NOW)
    assert weigh in following(springs)


def test_work_put_off_is_ahead_of_the_weighing_once_its_event_comes_later(cast, cars):
    springs, weigh, entry = put_off(cast, cars[0])
    entry.event.gates_at += 7 * DAY
    entry.event.ends_at += 7 * DAY
    entry.event.save()
    make_plan(cast.garage, at=NOW)
    assert weigh in following(springs)


@pytest.mark.parametrize(("late", "ahead"), [(-HOUR, False), (timedelta(0), True), (HOUR, True)])
def test_work_put_off_is_ahead_of_the_weighing_from_when_the_car_leaves(cast, cars, clock, late, ahead):
    springs, weigh, entry = put_off(cast, cars[0])
    clock.at = entry.event.due_at + late
    follow(cast.garage, at=clock.at)
    assert (weigh in following(springs)) is ahead


def test_the_plan_of_the_page_and_that_of_the_command_are_one(cast, cars, owner, clock):
    springs, _, entry = put_off(cast, cars[0])
    clock.at = entry.event.due_at + HOUR
    follow(cast.garage, at=clock.at)
    by_page = set(Link.objects.standing().values_list("before_id", "after_id"))
    call_command("plan")
    assert set(Link.objects.standing().values_list("before_id", "after_id")) == by_page
    assert any(before == springs.pk for before, _ in by_page)


@pytest.mark.parametrize("between", [1, 2])
def test_a_link_by_hand_closes_no_circle_through_the_order_of_other_cars(cast, cars, between):
    first, last = add(cars[0], cast.owner, "First"), add(cars[0], cast.owner, "Last")
    reached = first
    for car in cars[1 : 1 + between]:
        springs = add(car, cast.owner, "Springs", "spring_change")
        weigh = add(car, cast.owner, "Weigh", measures=WEIGHED)
        assert weigh in following(springs)
        links.add(reached, springs)
        reached = weigh
    links.add(reached, last)
    links.add(last, first)
    assert circle() is None
    assert planned(cast.garage).unplaced == {}


def test_the_order_that_gave_way_comes_back_with_the_link_that_took_it(cast, cars):
    first, last = add(cars[0], cast.owner, "First"), add(cars[0], cast.owner, "Last")
    springs, weigh = (
        add(cars[1], cast.owner, "Springs", "spring_change"),
        add(cars[1], cast.owner, "Weigh", measures=WEIGHED),
    )
    links.add(first, springs)
    links.add(weigh, last)
    back = links.add(last, first)
    assert weigh not in following(springs)
    links.remove(back)
    planned(cast.garage)
    assert weigh in following(springs)

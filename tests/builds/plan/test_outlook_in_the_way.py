"""What stands in the way beside the work is said with the outlook, the same wherever it stands."""

import re
from datetime import date, timedelta

import pytest

from builds.joints import actions as joints
from builds.plan.actions.follow import make_plan
from builds.plan.actions.odds import find_odds
from builds.plan.engine.outlook import LeavingCar, outlook
from builds.plan.facts.prospects import prospects
from builds.plan.facts.stored import shown
from builds.readings.models.target import RequiredReadings
from builds.steps.actions import jobs, steps
from builds.verdict.engine.on_plan import OnPlan
from garage.models import Gear
from tests.builds.plan.plan_kit import enter, evenings, job, outlook_of, planned, said_everywhere
from tests.factories import NOW, VehicleFactory

pytestmark = [pytest.mark.once, pytest.mark.django_db, pytest.mark.usefixtures("now")]
HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron", state="driveable")


def add(car, by, title, *kinds, **more):
    return jobs.add(car, by=by, at=NOW, title=title, work=(30, 60, 90), kinds=list(kinds), **more)


def unsigned_joint(cast, car):
    joints.add(car, name="Arm bolt", systems=["suspension"], opened_by=["joint_opened"])


def unsigned_job(cast, car):
    bush = add(car, cast.owner, "New bush", "joint_opened", systems=["suspension"], rank="")
    steps.start(bush, by=cast.helper, at=NOW - 2 * HOUR)
    steps.finish(bush, by=cast.helper, at=NOW - HOUR)


def on_stands(cast, car):
    car.state = "stands"
    car.save()


def gear_out(cast, car):
    Gear.objects.create(
        garage=cast.garage,
        vehicle=car,
        kind="belts",
        name="Belts",
        meaning="until",
        printed_on=date(2026, 1, 1),
        precision="day",
        made_at=NOW,
    )


def weighing_missing(cast, car):
    RequiredReadings.objects.create(vehicle=car, kinds=["corner_weights"], chosen_by=cast.owner, chosen_at=NOW)


STANDS_IN_THE_WAY = [
    (unsigned_joint, "Arm bolt"),
    (unsigned_job, "“New bush” is done"),
    (on_stands, "on stands"),
    (gear_out, "Belts"),
    (weighing_missing, "[Cc]orner weights"),
]


@pytest.mark.parametrize(("undo", "why"), STANDS_IN_THE_WAY)
def test_without_work_there_is_no_good_word_while_something_stands_in_the_way(owner, cast, car, undo, why):
    entry = enter(car)
    undo(cast, car)
    make_plan(cast.garage, at=NOW)
    assert prospects(cast.garage, NOW, [car], shown(cast.garage))[car.pk].on_plan.state == "blocked"
    for place, said in said_everywhere(owner, entry, cast).items():
        if place == "odds":  # a car without work has none
            continue
        assert re.search(f"No work is planned, but it is not fit to run: .*{why}", said), place
        assert not re.search("akes it|ill make|nothing is left", said), place


def test_belts_that_run_out_between_two_events_are_said_of_the_second_everywhere(owner, cast, car):
    first, second = enter(car), enter(car, NOW + 10 * DAY, name="Kiln Lane Autocross")
    gear_out(cast, car)
    Gear.objects.update(printed_on=date(2027, 3, 8))
    planned(cast.garage)
    today = {line.event: line.outlook for line in owner.get("/").context["view"].entries}
    wall = {tag.entry: tag.outlook for tag in owner.get("/plan/").context["view"].cars}
    for entry, said in (
        (first, "it is not known to be fit to run."),
        (second, "it is not fit to run: Out of date on the day: Belts"),
    ):
        (line,) = owner.get(f"/events/{entry.event_id}/").context["lines"]
        assert said in line.outlook.sentence
        assert line.outlook.sentence == today[entry.event.name].sentence == wall[entry].sentence


@pytest.mark.parametrize(("rank", "work"), [("", "No work is left, only"), ("wanted", "Only wanted work is left, and")])
def test_what_people_still_tick_and_sign_is_named_beside_the_work(cast, car, rank, work):
    if rank:
        job(car, cast, rank=rank)
    day = OnPlan("clear", "", on_the_way=("sign the hold point",))
    leaving = LeavingCar(f"car-{car.pk}", [], NOW + DAY, day)
    plan = planned(cast.garage)
    assert outlook(plan, None, leaving, NOW).sentence == f"{work} what people tick and sign."


@pytest.mark.parametrize(
    ("left", "said"),
    [
        (DAY, "Makes it: no work is left before it leaves."),
        (0 * DAY, "No work is left, only what people tick and sign."),
    ],
)
def test_once_it_has_to_leave_it_does_not_make_it_any_more(cast, car, left, said):
    leaving = LeavingCar(f"car-{car.pk}", [], NOW + left, OnPlan("clear", ""))
    assert outlook(planned(cast.garage), None, leaving, NOW).sentence == said


def test_on_stands_with_work_in_time_only_the_work_makes_it(owner, cast, car):
    car.state = "stands"
    car.save()
    unsigned_joint(cast, car)
    job(car, cast)
    enter(car)
    find_odds(make_plan(cast.garage, at=NOW).pk)
    assert outlook_of(owner).sentence.startswith("Its work makes it: in time 1,000 times out of 1,000")

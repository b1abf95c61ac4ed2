"""What a verdict rests on is remembered until somebody writes or the clock changes it, and is true all the while."""

from dataclasses import replace
from datetime import timedelta

import pytest
from django.db import connection, transaction
from django.db.models import F
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from builds.joints.models import Joint
from builds.plan.actions.follow import follow
from builds.plan.facts.standing import same_facts
from builds.plan.facts.stored import shown
from builds.plan.models import Plan
from builds.planner.search import FaultyPlan
from builds.readings.facts.seen import seen_of
from builds.readings.models.age import ReadingAge
from builds.scrutineering.actions import check_lists
from builds.scrutineering.models.check import CheckItem
from builds.shop.actions.shop import set_days
from builds.steps.actions.steps import finish
from builds.verdict.facts.car import car_facts
from builds.verdict.facts.fleet import NOTE, facts_of, next_entries
from builds.verdict.facts.verdict import verdict_of
from builds.work.facts.work import load_work
from garage.actions.refused import Refused
from garage.http import visible
from garage.models import Event, Garage, Membership, Vehicle
from garage.remembered import notes_of
from tests.builds.joints.joint_kit import mark, sign
from tests.builds.plan.plan_kit import evenings, followed, planned
from tests.builds.readings.reading_kit import limit, require, take
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, LinkFactory, MembershipFactory, VehicleFactory

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.once]
MINUTE, DAY = timedelta(minutes=1), timedelta(days=1)


@pytest.fixture(autouse=True)
def remembers(settings, monkeypatch):
    settings.REMEMBERS = True
    monkeypatch.setattr("garage.remembered._notes", {})


@pytest.fixture
def car(cast, clock):
    return VehicleFactory(garage=cast.garage, name="Heron")


def fresh(car, at):
    """What is known of it, loaded from the rows."""
    car.refresh_from_db()
    return car_facts(car.garage, at, [car], next_entries(car.garage, [car], at))[car.pk]


def told(car):
    return notes_of(Garage.objects.get(pk=car.garage_id))[NOTE]


def remembered(car):
    return told(car).facts[car.pk, None]


def known(car, at):
    return facts_of(Garage.objects.get(pk=car.garage_id), at, [car])[car.pk]


def test_a_second_look_asks_for_nothing(car):
    known(car, NOW)
    garage, before = Garage.objects.get(pk=car.garage_id), replace(remembered(car), at=NOW + MINUTE)
    with CaptureQueriesContext(connection) as asked:
        assert facts_of(garage, NOW + MINUTE, [car])[car.pk] == before
    assert len(asked) == 0


def test_what_was_begun_and_who_looked_at_a_joint_is_seen_at_once(cast, car):
    owner, page = cast.client("owner"), reverse("joint_list", args=[car.pk])
    joint, job = Joint.objects.create(vehicle=car, name="Rod end", systems=["steering"]), JobFactory(vehicle=car)
    mark(cast.client("helper"), joint)
    assert "signed by Ines" not in owner.get(page).content.decode()
    sign(owner, joint)
    assert "signed by Ines" in owner.get(page).content.decode()
    was = [line.did for line in owner.get("/").context["view"].changes.lines]
    owner.press(reverse("job_start", args=[job.pk]))
    assert [line.did for line in owner.get("/").context["view"].changes.lines] == ["started", *was]


def test_a_tap_is_seen_at_once(cast, car):
    owner, page = cast.client("owner"), reverse("vehicle_list")
    assert "The car is on stands." not in owner.get(page).content.decode()
    owner.press(reverse("vehicle_state", args=[car.pk]), {"state": "stands"})
    assert "The car is on stands." in owner.get(page).content.decode()
    assert known(car, NOW) == fresh(car, NOW)


def test_a_car_that_was_read_before_a_tap_is_not_remembered_as_it_stood(cast, car):
    member = Membership.objects.select_related("garage").get(pk=cast.owner.pk)
    read_before = visible(Vehicle, member, pk=car.pk)
    cast.client("owner").press(reverse("vehicle_state", args=[car.pk]), {"state": "stands"})
    verdict_of(read_before, NOW)
    assert known(Vehicle.objects.get(pk=car.pk), NOW) == fresh(car, NOW)


def test_the_open_work_is_remembered_and_its_order_is_read_each_time(cast, car):
    first, second = (JobFactory(vehicle=car, made_by=cast.owner, systems=["body"]) for _ in range(2))
    garage = Garage.objects.get(pk=cast.garage.pk)
    assert load_work(garage, NOW).order == [first.pk, second.pk]
    with CaptureQueriesContext(connection) as asked:
        load_work(garage, NOW)
    assert len(asked) == 1
    LinkFactory(before=second, after=first)  # as the order of work is drawn, beside the answer
    assert load_work(garage, NOW).order == [second.pk, first.pk]
    cast.client("owner").press(reverse("job_start", args=[second.pk]))
    assert load_work(Garage.objects.get(pk=cast.garage.pk), NOW).jobs[second.pk].state == "in_hand"


def test_what_was_seen_is_read_as_far_back_as_anything_asks_and_then_remembered(cast, car):
    JobFactory(vehicle=car, made_by=cast.owner, title="Wheel nuts loose", seen=True, made_at=NOW - 9 * DAY)
    garage = Garage.objects.get(pk=cast.garage.pk)
    told = []
    for days in (8, 9, 8):
        with CaptureQueriesContext(connection) as asked:
            told.append((len(seen_of(garage, NOW - days * DAY).get(car.pk, ())), len(asked)))
    assert told == [(0, 3), (1, 3), (1, 0)]


def test_a_plan_is_read_whole_once_and_then_remembered(cast, car, monkeypatch):
    evenings(cast.owner)
    JobFactory(vehicle=car, made_by=cast.owner)
    plan, garage = planned(cast.garage), Garage.objects.get(pk=cast.garage.pk)
    monkeypatch.setattr("garage.remembered._notes", {})
    for asked in (2, 1):
        with CaptureQueriesContext(connection) as made:
            assert shown(garage).placed == plan.placed
        assert len(made) == asked


def test_a_plan_whose_notes_another_thread_replaces_is_drawn_from_those_at_hand(cast, car, monkeypatch):
    evenings(cast.owner)
    JobFactory(vehicle=car, made_by=cast.owner)
    plan, garage = planned(cast.garage), Garage.objects.get(pk=cast.garage.pk)
    shown(garage)

    def replaced(garage, name, load):
        """The notes are newer ones, and the plan is gone."""
        Plan.objects.all().delete()
        return load()

    monkeypatch.setattr("builds.plan.facts.stored.remembered", replaced)
    assert shown(garage).placed == plan.placed


def test_a_plan_that_others_take_down_while_it_is_looked_at_is_made_anew(cast, car, monkeypatch):
    evenings(cast.owner)
    JobFactory(vehicle=car, made_by=cast.owner)
    followed(cast.garage)
    Garage.objects.filter(pk=cast.garage.pk).update(writes=F("writes") + 1)
    garage = Garage.objects.get(pk=cast.garage.pk)
    stood = shown(garage)

    def taken_down(plan, garage):
        Plan.objects.filter(pk=stood.row.pk).delete()
        return same_facts(plan, garage)

    monkeypatch.setattr("builds.plan.actions.follow.same_facts", taken_down)
    assert follow(garage, at=NOW) == ""
    assert shown(Garage.objects.get(pk=garage.pk)).row.pk > stood.row.pk


@pytest.mark.parametrize("error", [Refused("Links in a circle."), FaultyPlan("Ines is on two jobs at once.")])
def test_what_was_refused_is_planned_again_after_a_write_or_in_the_next_slot_alone(cast, car, monkeypatch, error):
    evenings(cast.owner)
    JobFactory(vehicle=car, made_by=cast.owner)
    asked = []

    def refused(garage, at, promised):
        asked.append(at)
        raise error

    def say(minutes):
        return follow(Garage.objects.get(pk=cast.garage.pk), at=NOW + minutes * MINUTE)

    with monkeypatch.context() as planner:
        planner.setattr("builds.plan.actions.follow.draft", refused)
        assert say(1) == say(2) != ""
        assert len(asked) == 1
        assert say(16) == say(17) == say(1)
        assert len(asked) == 3
    assert say(2) != ""
    Garage.objects.filter(pk=cast.garage.pk).update(writes=F("writes") + 1)
    assert say(2) == ""
    assert shown(cast.garage)


def test_what_is_taken_back_was_never_remembered(car):
    """A form that is refused draws its page inside the transaction that is rolled back."""
    with transaction.atomic():
        JobFactory(vehicle=car, rank="safety")
        assert len(known(car, NOW).jobs) == 1
        transaction.set_rollback(True)
    assert known(car, NOW).jobs == ()


def test_a_garage_from_another_backup_is_another_one(cast, car):
    known(car, NOW)
    Garage.objects.filter(pk=cast.garage.pk).update(created_at=NOW)
    JobFactory(vehicle=car)
    assert len(known(car, NOW).jobs) == 1


def test_a_name_that_changes_elsewhere_is_counted_here(cast, car, stranger_too):
    before = Garage.objects.get(pk=cast.garage.pk).writes
    answer = stranger_too.press(reverse("account_page"), {"name": "Wren", "surname": "", "scheme": ""})
    assert answer.status_code == 303
    assert Garage.objects.get(pk=cast.garage.pk).writes == before + 1


@pytest.fixture
def stranger_too(cast):
    """The owner of another garage, who helps here, and looks at his own."""
    MembershipFactory(garage=cast.garage, person=cast.stranger.person, role="helper")
    client = cast.client("stranger")
    session = client.session
    session["garage"] = cast.stranger.garage_id
    session.save()
    return client


def test_for_another_event_only_what_hangs_on_it_is_read_and_the_same_is_said_as_of_the_rows(cast, car):
    """What somebody says to have opened nothing is told as far back as what stands on the list of that event."""
    require(car, cast.owner, "camber")
    take(car, "camber", cast.owner, at=NOW - 2 * DAY)
    for days in (1, 5):
        done = {"state": "signed", "finished_at": NOW - days * DAY}
        JobFactory(vehicle=car, made_by=cast.owner, systems=["brakes"], nothing_because="Only looked at it", **done)
    entries = []
    for number, looked in enumerate((NOW - DAY, NOW - 2 * DAY, NOW - 9 * DAY)):
        event = EventFactory(garage=cast.garage, gates_at=NOW + (number + 1) * DAY)
        entries.append(EntryFactory(event=event, vehicle=car))
        check_lists.make(entries[-1], by=cast.owner, at=looked)
        CheckItem.objects.filter(checklist__entry=entries[-1]).update(state="ticked", by=cast.owner, at=looked)
    garage, told = Garage.objects.get(pk=cast.garage.pk), []
    signs = {"readings": 'FROM "builds_reading"', "joints": 'FROM "builds_joint"', "jobs": '"dropped_by"'}
    anew = [signs.keys(), set(), {"jobs"}]
    for entry in entries:
        with CaptureQueriesContext(connection) as asked:
            told.append(facts_of(garage, NOW, [car], {car.pk: entry})[car.pk])
        assert told[-1] == car_facts(garage, NOW, [car], {car.pk: entry})[car.pk]
        again = {name for name, sign in signs.items() if any(sign in query["sql"] for query in asked)}
        assert again == anew.pop(0)
    assert [len(facts.jobs) for facts in told] == [1, 1, 2]


def edges(car):
    """Moments at which the clock alone changes something, and one just before and after each."""
    ends = [event.ends_at for event in Event.objects.in_garage(car.garage)]
    ages = [NOW - DAY + timedelta(days=days) for days in ReadingAge.objects.values_list("days", flat=True)]
    midnights = [NOW.replace(hour=0) + number * DAY for number in range(1, 5)]
    return sorted(edge + step for edge in [*ends, *ages, *midnights] for step in (-MINUTE, MINUTE * 0, MINUTE))


def test_what_the_clock_changes_is_known_anew(cast, car):
    """Whatever moment was looked at first, each later one is told as it is."""
    for number in range(2):
        gates = NOW + (2 * number + 1) * DAY
        EntryFactory(event=EventFactory(garage=cast.garage, gates_at=gates, ends_at=gates + 5 * MINUTE), vehicle=car)
    require(car, cast.owner, "camber", "wheel_torque", at=NOW - 2 * DAY)
    for kind in ("camber", "wheel_torque"):
        take(car, kind, cast.owner, at=NOW - DAY)
        limit(car, kind)
    ReadingAge.objects.create(garage=cast.garage, kind="camber", days=2)
    changed = 0
    for moment in (moment for moment in edges(car) if moment >= NOW):
        told = known(car, moment)
        assert told == fresh(car, moment), moment
        changed += told != replace(known(car, NOW), at=moment)
    assert changed


def test_what_is_remembered_lasts_until_the_clock_changes_it(cast, car):
    """Not so short that it serves nobody."""
    known(car, NOW)
    assert told(car).until == NOW.replace(hour=0) + DAY


def test_what_is_too_cold_to_cure_is_remembered_until_the_day_is_over(cast, car):
    """Nobody can say when that is over: every page that draws the board asks for it."""
    set_days(cast.garage, {NOW.date() + number * DAY: (-9_000, -7_000) for number in range(-1, 60)})
    paint = JobFactory(vehicle=car, made_by=cast.owner, systems=["suspension"], kinds=["paint_under_joint"])
    refit = JobFactory(vehicle=car, made_by=cast.owner, systems=["suspension"])
    LinkFactory(before=paint, after=refit, cure="epoxy-primer", cure_stage="full")
    finish(paint, by=cast.owner, at=NOW - MINUTE)
    (cure,) = known(car, NOW).cures
    assert cure.until is None
    assert known(car, NOW) == fresh(car, NOW)
    assert told(car).until == NOW.replace(hour=0) + DAY

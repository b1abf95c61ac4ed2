"""Today: who is in, what is next for each, what cures, what waits for eyes, what changed."""

from datetime import timedelta

import pytest

from builds.cars.facts import fleet_of
from builds.needs.actions import needs
from builds.plan.actions import follow
from builds.steps.actions import steps
from builds.today.pages.today import load_today
from builds.work.models.job import Job
from garage.models import Garage
from tests.builds.plan.plan_kit import enter, evenings, planned
from tests.conftest import queries
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    HoldPointFactory,
    JobFactory,
    LinkFactory,
    MemberHoursFactory,
    SkillFactory,
    VehicleFactory,
)


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def tonight(cast):
    """Ines and Tove are in from 18:00 to 22:00, Priya is not; it is 17:00."""
    for member in (cast.owner, cast.helper):
        MemberHoursFactory(member=member)


def today(client):
    answer = client.get("/")
    assert answer.status_code == 200
    return answer.context["view"]


def person(client, name):
    return next(each for each in today(client).people if each.name == name)


def test_the_heading_and_who_is_in(owner, cast, car, tonight, now):
    JobFactory(vehicle=car, made_by=cast.owner)
    view = today(owner)
    assert view.heading == "Tuesday evening"
    assert view.lead == "Ines in from 18:00 until 22:00, Tove in from 18:00 until 22:00."
    assert [each.name for each in view.there] == ["Ines", "Tove"]
    assert [each.name for each in view.away] == ["Priya"]


def test_the_heading_is_in_the_garages_own_time(owner, cast, car, now):
    Garage.objects.filter(pk=cast.garage.pk).update(time_zone="Asia/Tokyo")
    JobFactory(vehicle=car)
    assert today(owner).heading == "Wednesday morning"


def test_without_a_plan_the_most_urgent_goes_first_and_nobody_gets_the_same(owner, car, tonight, now):
    JobFactory(vehicle=car, title="Polish", rank="wanted")
    JobFactory(vehicle=car, title="Brakes", rank="safety")
    JobFactory(vehicle=car, title="Fan", rank="needed")
    nexts = {each.name: each.next.card.title for each in today(owner).there}
    assert nexts == {"Ines": "Brakes", "Tove": "Fan"}


@pytest.mark.parametrize("with_plan", [True, False])
def test_work_for_more_hands_than_there_are_is_not_offered(owner, cast, car, tonight, now, with_plan):
    JobFactory(vehicle=car, title="Lift the engine", hands=5)
    if with_plan:
        planned(cast.garage)
    ines = person(owner, "Ines")
    assert (ines.next, ines.then) == (None, ())
    assert ines.idle == "Nothing is next for Ines: of the open jobs 1 takes more hands than work here."


def test_without_a_plan_nobody_is_given_what_he_cannot_do(owner, car, tonight, now, cast):
    weld = SkillFactory(garage=cast.garage, slug="weld")
    cast.helper.skills.add(weld)
    JobFactory(vehicle=car, title="Weld", rank="safety", skill=weld)
    assert person(owner, "Ines").next is None
    assert person(owner, "Tove").next.card.title == "Weld"


def test_with_a_plan_its_rows_say_who_does_what_and_when(owner, car, tonight, now, cast):
    weld = SkillFactory(garage=cast.garage, slug="weld")
    cast.helper.skills.add(weld)
    JobFactory(vehicle=car, title="Weld", rank="safety", skill=weld)
    JobFactory(vehicle=car, title="Fan", rank="needed", likely_minutes=120)
    follow.make_plan(cast.garage, at=NOW)
    odd, ines = person(owner, "Tove"), person(owner, "Ines")
    assert (odd.next.card.title, odd.next.card.kicker) == ("Weld", "next, 18:00")
    assert (ines.next.card.title, ines.next.crew) == ("Fan", (cast.owner.pk,))


def test_work_that_goes_before_what_is_next_is_not_called_next(owner, car, tonight, now, cast):
    coat = {"rank": "safety", "likely_minutes": 210, "high_minutes": 210, "splits": False}
    prime = JobFactory(vehicle=car, title="Prime", rank="safety", likely_minutes=90, high_minutes=90)
    paint = JobFactory(vehicle=car, title="Paint", skill=SkillFactory(garage=cast.garage, slug="paint"), **coat)
    cast.owner.skills.add(paint.skill)
    LinkFactory(before=prime, after=paint)
    fan = {"likely_minutes": 60, "high_minutes": 60, "splits": False, "rank": "wanted", "skill": paint.skill}
    JobFactory(vehicle=car, title="Fan", **fan)
    steps.start(prime, by=cast.helper, at=NOW - timedelta(minutes=60))
    follow.make_plan(cast.garage, at=NOW)
    turn = person(owner, "Ines").next
    assert (turn.card.title, turn.card.kicker) == ("Fan", "can start now (planned Tue 9 Mar 18:00)")
    assert [(then.title, then.when) for then in person(owner, "Ines").then] == [("Paint", "18:30")]


def test_start_from_anothers_card_puts_him_on_it(owner, car, tonight, now, cast):
    job = JobFactory(vehicle=car, title="Fan")
    other = JobFactory(vehicle=car, title="Hose")
    page = owner.get("/").content.decode()
    assert f'action="/jobs/{other.pk}/start/"' in page
    assert f'<input type="hidden" name="crew" value="{cast.helper.pk}">' in page
    owner.press(f"/jobs/{other.pk}/start/", {"crew": cast.helper.pk, "next": "/"})
    assert [card.title for card in person(owner, "Tove").in_hand] == ["Hose"]
    assert person(owner, "Ines").next.card.pk == job.pk


def test_what_cannot_begin_is_not_offered_and_says_why(owner, car, tonight, clock, cast):
    first = JobFactory(vehicle=car, title="Prime")
    then = JobFactory(vehicle=car, title="Paint")
    LinkFactory(before=first, after=then, wait_minutes=600, why="the primer cures")
    steps.start(first, by=cast.owner, at=NOW - timedelta(hours=1))
    steps.finish(first, by=cast.owner, at=NOW)
    turn = person(owner, "Ines").next
    assert (turn.card.title, turn.card.steps) == ("Paint", ())
    assert turn.card.note == "The primer cures: ready Wed 03:00."
    curing = today(owner).curing
    assert [(row.card.title, row.card.stripe, row.card.ready) for row in curing] == [
        ("Prime", "cure", "ready Wed 03:00")
    ]
    clock.forward(hours=10)
    assert not today(owner).curing
    assert person(owner, "Ines").next.card.steps == ("start",)


def test_in_hand_has_its_steps_one_tap_away(owner, car, tonight, now, cast):
    job = JobFactory(vehicle=car, title="Fan")
    steps.start(job, by=cast.owner, at=NOW - timedelta(minutes=42))
    card = person(owner, "Ines").in_hand[0]
    assert (card.stripe, card.kicker, card.steps) == (
        "half",
        "42 min, Ines",
        ("finish", "stop", "found"),
    )
    page = owner.get("/").content.decode()
    for step in ("finish", "stop", "found"):
        assert f"/jobs/{job.pk}/{step}/" in page


def test_what_somebody_forgot_to_put_down_asks_when_it_was(owner, car, clock, cast):
    job = JobFactory(vehicle=car, title="Fan", made_by=cast.owner)
    steps.start(job, by=cast.owner, at=NOW)
    clock.forward(hours=14)
    card = person(owner, "Ines").in_hand[0]
    assert card.note == "In hand since Tue 17:00: was it put down?"
    assert card.steps[-1] == "stopped"
    owner.press(f"/jobs/{job.pk}/stop/", {"moment": "2027-03-02T18:00"})
    assert owner.get(f"/jobs/{job.pk}/").context["view"].spent == "1 h"


def test_a_hold_point_that_was_reached_waits_for_eyes(owner, helper, car, now, cast):
    job = JobFactory(vehicle=car, title="Weld", rank="safety", made_by=cast.owner)
    point = HoldPointFactory(job=job, what="No crater")
    JobFactory(vehicle=car, made_by=cast.owner)
    assert not today(owner).to_sign
    steps.finish(job, by=cast.helper, at=NOW)
    row = today(owner).to_sign[0]
    assert (row.card.title, row.card.kicker) == ("Hold point: No crater", "waits for Ines")
    assert row.may_sign and not today(helper).to_sign[0].may_sign
    owner.press(row.url, {"next": "/"})
    point.refresh_from_db()
    assert point.signed_by == cast.owner
    assert not today(owner).to_sign


def test_a_finished_safety_job_waits_for_a_signature(owner, helper, car, now, cast):
    JobFactory(vehicle=car)
    done = {}
    for rank in ("safety", "needed"):
        done[rank] = JobFactory(vehicle=car, title=rank, rank=rank)
        steps.finish(done[rank], by=cast.helper, at=NOW)
    rows = today(owner).to_sign
    assert [(row.card.title, row.may_sign) for row in rows] == [("safety", True)]
    owner.press(rows[0].url, {"next": "/"})
    assert Job.objects.get(title="safety").state == "signed"


def test_what_is_on_hold_is_shown_with_its_reason(owner, car, now, cast):
    job = JobFactory(vehicle=car, title="Fan")
    steps.hold(job, by=cast.owner, at=NOW, reason="no gasket")
    assert [(card.title, card.note) for card in today(owner).held] == [("Fan", "no gasket")]


def test_next_events_say_what_the_plan_makes_of_each_car(owner, car, tonight, now, cast):
    JobFactory(vehicle=car, title="Fan")
    EntryFactory(event=EventFactory(garage=cast.garage, name="Saltmarsh"), vehicle=car)
    entry = today(owner).entries[0]
    assert (entry.car, entry.event, entry.outlook.makes_it) == ("Heron", "Saltmarsh", True)
    assert entry.outlook.sentence in owner.get("/").content.decode()


def test_an_empty_garage_offers_three_steps_then_a_list_or_the_demo(owner, cast, now):
    view = today(owner)
    assert [(step.label, step.done) for step in view.first_steps] == [
        ("Add a car", False),
        ("Add an event", False),
        ("Say when you are in", False),
        ("Write its jobs down", False),
    ]
    assert 'action="/demo/"' in owner.get("/").content.decode()
    VehicleFactory(garage=cast.garage)
    assert [step.done for step in today(owner).first_steps] == [True, False, False, False]
    assert 'action="/demo/"' not in owner.get("/").content.decode()


def test_a_viewer_reads_and_taps_nothing(viewer, car, tonight, now):
    JobFactory(vehicle=car)
    page = viewer.get("/").content.decode()
    assert "/start/" not in page and "In tonight until" not in page


def test_a_stranger_sees_his_own_and_nobody_signs_in(stranger, cast, car, tonight, now):
    JobFactory(vehicle=car, title="Secret weld")
    assert "Secret weld" not in stranger.get("/").content.decode()
    assert cast.client("nobody").get("/").status_code == 302


def test_markup_in_names_is_text(owner, car, tonight, now, cast):
    JobFactory(vehicle=car, title="<script>x</script>", made_by=cast.owner, made_at=NOW)
    assert "<script>x" not in owner.get("/").content.decode()


def fill(cast, count):
    for _ in range(count):
        car = VehicleFactory(garage=cast.garage)
        EntryFactory(event=EventFactory(garage=cast.garage), vehicle=car)
        skill = SkillFactory(garage=cast.garage, slug="weld")
        first = JobFactory(vehicle=car, skill=skill, made_by=cast.owner)
        LinkFactory(before=first, after=JobFactory(vehicle=car, made_by=cast.owner), wait_minutes=90)
        steps.finish(first, by=cast.owner, at=NOW)
        held = JobFactory(vehicle=car, rank="safety", made_by=cast.owner)
        HoldPointFactory(job=held)
        steps.finish(held, by=cast.owner, at=NOW)
        signed = JobFactory(vehicle=car, rank="safety", made_by=cast.owner)
        steps.finish(signed, by=cast.owner, at=NOW)
        steps.start(JobFactory(vehicle=car, made_by=cast.owner), by=cast.helper, at=NOW)


def test_as_many_queries_however_much_there_is(owner, cast, tonight, now, django_assert_max_num_queries):
    fill(cast, 1)
    follow.make_plan(cast.garage, at=NOW)
    few = queries(owner, "/")
    fill(cast, 4)
    follow.make_plan(cast.garage, at=NOW)
    assert queries(owner, "/") == few
    with django_assert_max_num_queries(46):
        load_today(cast.owner, fleet_of(cast.garage, NOW))


def test_a_start_is_not_offered_before_the_part_is_there(cast, now):
    evenings(cast.owner)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    hose = JobFactory(vehicle=car, made_by=cast.owner, title="Fit the hose")
    needs.add(hose, at=NOW, what="hose", expected_on=(NOW + timedelta(days=3)).date())
    enter(car, NOW + timedelta(days=9))
    planned(cast.garage)
    me = next(person for person in load_today(cast.owner, fleet_of(cast.garage, NOW)).people if person.is_me)
    assert me.next.card.steps == ()
    assert "“hose”, expected" in me.next.card.note

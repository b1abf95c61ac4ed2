"""The plan follows whatever changes, by itself: made anew when something did, and left alone otherwise."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.plan.actions import follow as following
from builds.plan.actions.follow import follow
from builds.plan.facts.standing import same_facts
from builds.plan.facts.stored import shown
from builds.plan.models import Plan
from builds.planner.search import FaultyPlan
from builds.shop.actions import shop
from builds.steps.actions import findings, links, steps
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.states import State
from garage.actions import hours
from garage.models import DayHours, Garage
from tests.builds.plan.plan_kit import enter, evenings, followed, job, planned, starts, text, write
from tests.factories import NOW, LinkFactory, NeedFactory, VehicleFactory

pytestmark = pytest.mark.django_db
HOUR, MINUTE, DAY = timedelta(hours=1), timedelta(minutes=1), timedelta(days=1)
SIX = NOW + HOUR  # the evening begins


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    evenings(cast.helper)
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def chain(car, cast):
    """Prime, which cures in the weather of the shop, then Paint; and a fan."""
    prime, paint = job(car, cast, "Prime"), job(car, cast, "Paint", needs_mc=5000)
    LinkFactory(before=prime, after=paint, cure="epoxy-primer", cure_stage="handle", wait_minutes=600)
    fan = job(car, cast, "Fit the fan", rank="wanted")
    enter(car)
    return prime, paint, fan


def kinds(cast, chain):
    """One of every kind of change that the planner hears of, by what it is."""
    prime, _, fan = chain
    car, garage = prime.vehicle, cast.garage
    return {
        "a job": lambda: job(car, cast, "Bleed the brakes"),
        "a job dropped": lambda: steps.drop(fan, by=cast.owner, at=NOW, reason="not now"),
        "its length": lambda: Job.objects.filter(pk=fan.pk).update(likely_minutes=90, high_minutes=90),
        "its title": lambda: Job.objects.filter(pk=fan.pk).update(title="Fit the small fan"),
        "its rank": lambda: Job.objects.filter(pk=fan.pk).update(rank="safety"),
        "a link": lambda: links.add(fan, prime),
        "a link cut": lambda: Link.objects.update(wait_minutes=0, cure="", cure_stage=""),
        "hours": lambda: hours.set_week(cast.owner, week=[]),
        "a day off": lambda: DayHours.objects.create(member=cast.owner, day=NOW.date(), kind="off"),
        "a part": lambda: NeedFactory(job=fan, expected_on=NOW.date() + 2 * DAY),
        "a finding": lambda: findings.found(fan, "Chafed hose", hurts=False, by=cast.owner, at=NOW),
        "a temperature": lambda: shop.read(garage, by=cast.owner, at=NOW, air_mc=3000, humidity=None, metal_mc=None),
        "a forecast": lambda: shop.set_days(garage, {NOW.date() + DAY: (-4000, 2000)}),
        "an entry": lambda: enter(car, NOW + DAY, name="Early Hill Climb"),
        "a start": lambda: steps.start(fan, by=cast.helper, at=NOW),
        "a finish": lambda: steps.finish(prime, by=cast.owner, at=NOW),
    }


KINDS = (
    *("a job", "a job dropped", "its length", "its title", "its rank", "a link", "a link cut", "hours", "a day off"),
    *("a part", "a finding", "a temperature", "a forecast", "an entry", "a start", "a finish"),
)


def test_every_kind_is_named(cast, chain):
    assert tuple(kinds(cast, chain)) == KINDS


@pytest.mark.parametrize("kind", KINDS)
def test_the_plan_is_made_anew_after_a_change_and_once(cast, chain, kind):
    before = planned(cast.garage)
    kinds(cast, chain)[kind]()
    after = followed(cast.garage, NOW + MINUTE)
    assert after.row != before.row
    assert after.row.made_at == NOW + MINUTE
    assert followed(cast.garage, NOW + 2 * MINUTE).row == after.row


def test_what_nothing_changed_for_the_plan_is_only_noted(cast, chain):
    before = planned(cast.garage)
    Job.objects.update(note="Mind the loom.")
    after = followed(cast.garage, NOW + MINUTE)
    assert (after.row, after.row.made_at, after.row.writes) == (before.row, NOW, 1)


@pytest.mark.parametrize("kind", ["a job", "a job dropped", "a finding", "a start", "a finish"])
def test_that_jobs_came_went_or_were_started_is_seen_in_one_query(cast, chain, kind):
    wall = planned(cast.garage)
    kinds(cast, chain)[kind]()
    with CaptureQueriesContext(connection) as asked:
        assert not same_facts(wall, cast.garage)
    assert len(asked) == 1


def test_where_nothing_was_written_it_is_one_query_and_no_lock(cast, chain):
    planned(cast.garage)
    with CaptureQueriesContext(connection) as asked:
        follow(cast.garage, at=NOW + MINUTE)
    assert len(asked) == 1
    assert asked[0]["sql"].startswith("SELECT")


def test_a_garage_without_work_has_no_plan_and_its_first_job_makes_it(cast, car):
    follow(cast.garage, at=NOW)
    assert not Plan.objects.exists()
    job(car, cast)
    assert starts(followed(cast.garage))["Fit the fan"][0] == "Tue 18:00"
    Job.objects.update(state=State.DROPPED)
    assert followed(cast.garage).jobs == {}


def test_a_session_that_passed_unworked_is_planned_again(cast, car):
    job(car, cast, "Fit the fan")
    before = planned(cast.garage)
    follow(cast.garage, at=SIX + 29 * MINUTE)
    assert shown(cast.garage).row == before.row
    follow(cast.garage, at=SIX + 30 * MINUTE)
    assert starts(shown(cast.garage))["Fit the fan"][0] == "Tue 18:30"
    follow(cast.garage, at=SIX + DAY - HOUR)
    assert starts(shown(cast.garage))["Fit the fan"][0] == "Wed 18:00"


def test_a_plan_of_yesterday_is_made_anew_in_the_morning(cast, car):
    job(car, cast, "Fit the fan", earliest_at=NOW + 9 * DAY)
    before = planned(cast.garage)
    follow(cast.garage, at=NOW + 10 * HOUR + 59 * MINUTE)
    assert shown(cast.garage).row == before.row
    follow(cast.garage, at=NOW + 11 * HOUR)
    assert shown(cast.garage).row.made_at == NOW + 11 * HOUR


def test_when_a_car_has_left_its_next_event_counts(cast, car):
    job(car, cast, "Fit the fan", likely_minutes=600, high_minutes=600)
    enter(car, NOW + 2 * HOUR + 5 * MINUTE, name="Tonight")
    enter(car, NOW + 9 * DAY, name="Later")
    plan = planned(cast.garage)
    assert plan.row.stands_until == SIX + 30 * MINUTE
    at = SIX + 40 * MINUTE
    steps.start(Job.objects.get(), by=cast.owner, at=SIX)
    due = followed(cast.garage, at).jobs[f"job-{Job.objects.get().pk}"].due
    at = NOW + 2 * HOUR + 5 * MINUTE
    assert shown(cast.garage).row.stands_until == at
    follow(cast.garage, at=at)
    assert shown(cast.garage).jobs[f"job-{Job.objects.get().pk}"].due > due


def test_work_in_hand_stays_in_hand(cast, chain):
    prime, _, fan = chain
    steps.start(fan, by=cast.helper, at=SIX)
    plan = followed(cast.garage, SIX)
    assert starts(plan)["Fit the fan"] == ("Tue 18:00", "Tue 19:00", "Tove")
    job(prime.vehicle, cast, "Brakes", rank="safety")
    plan = followed(cast.garage, SIX + 15 * MINUTE)
    assert starts(plan)["Fit the fan"] == ("Tue 18:15", "Tue 19:00", "Tove")
    follow(cast.garage, at=SIX + HOUR)  # it takes longer than it was written down to
    plan = shown(cast.garage)
    assert plan.row.made_at == SIX + HOUR
    assert starts(plan)["Fit the fan"] == ("Tue 19:00", "Tue 19:15", "Tove")


def test_links_in_a_circle_are_said_and_what_was_planned_stays(cast, chain, owner, now):
    prime, paint, _ = chain
    before = planned(cast.garage)
    Link.objects.create(before=paint, after=prime)
    write(cast.garage)
    car = prime.vehicle
    for path in ("/", "/plan/", "/plan/odds/", f"/cars/{car.pk}/", f"/events/{car.entries.get().event_id}/"):
        said = text(owner, path)
        assert "This cannot be planned as it is, and the plan stays as it was." in said
        assert "in a circle" in said
    assert shown(cast.garage).row == before.row


def test_a_planner_that_errs_takes_no_page_with_it(cast, chain, owner, now, monkeypatch, caplog):
    before = planned(cast.garage)
    write(cast.garage)
    Job.objects.update(likely_minutes=30, low_minutes=30)

    def wrong(*args, **more):
        raise FaultyPlan("Ines is on two jobs at once.")

    monkeypatch.setattr(following, "best", wrong)
    said = text(owner, "/plan/")
    assert "Prime" in said and "The planner made a plan with a fault, which is not shown" in said
    assert shown(cast.garage).row == before.row
    assert "Ines is on two jobs at once." in caplog.text


def test_a_write_while_it_plans_has_it_planned_once_more(cast, chain, monkeypatch):
    planned(cast.garage)
    job(chain[0].vehicle, cast, "Brakes")
    best, seen = following.best, []

    def slow(case, *args, **more):
        seen.append(len(case.problem.jobs))
        if len(seen) == 1:
            job(chain[0].vehicle, cast, "Hubs")
            write(cast.garage)
        return best(case, *args, **more)

    monkeypatch.setattr(following, "best", slow)
    plan = followed(cast.garage, NOW + MINUTE)
    assert seen == [4, 5]
    assert (len(plan.jobs), plan.row.writes) == (5, 2)
    assert Plan.objects.in_garage(cast.garage).count() == 1


def test_one_that_is_overtaken_each_time_gives_way(cast, chain, monkeypatch):
    before = planned(cast.garage)
    best = following.best

    def slow(case, *args, **more):
        write(cast.garage)
        return best(case, *args, **more)

    monkeypatch.setattr(following, "best", slow)
    job(chain[0].vehicle, cast, "Brakes")
    assert followed(cast.garage).row == before.row


def test_the_same_today_right_after_a_tap(cast, chain, owner, now):
    """The tap is committed with its count, and the page that follows it has the plan of then."""
    planned(cast.garage)
    assert owner.press(f"/jobs/{chain[0].pk}/drop/", {"reason": "painted already"}).status_code == 303
    view = owner.get("/").context["view"]
    assert {person.next.card.title for person in view.people if person.next} <= {"Paint", "Fit the fan"}
    assert Garage.objects.get(pk=cast.garage.pk).writes == 1
    assert set(starts(shown(cast.garage))) == {"Paint", "Fit the fan"}


def test_a_refused_write_is_not_counted(cast, chain, owner, now):
    planned(cast.garage)
    assert owner.press(f"/jobs/{chain[0].pk}/drop/", {"reason": ""}).status_code in (303, 422)
    before = Garage.objects.get(pk=cast.garage.pk).writes
    assert owner.press("/plan/search/", {"seconds": "9999"}).status_code == 422
    assert Garage.objects.get(pk=cast.garage.pk).writes == before


def test_a_form_that_was_drawn_a_while_ago_does_not_turn_the_count_back(cast):
    write(cast.garage)
    cast.garage.name = "Lock-up"
    cast.garage.save()
    cast.garage.refresh_from_db()
    assert (cast.garage.name, cast.garage.writes) == ("Lock-up", 1)


def test_after_the_commit_the_plan_is_there_before_anybody_looks(
    cast, chain, owner, now, django_capture_on_commit_callbacks
):
    planned(cast.garage)
    with django_capture_on_commit_callbacks(execute=True):
        owner.press(f"/jobs/{chain[2].pk}/drop/", {"reason": "not now"})
    assert set(starts(shown(cast.garage))) == {"Prime", "Paint"}

"""The planner's problem from the rows: hours, dates, what is left, what is already a fact."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.plan.engine.packed import problem_table
from builds.plan.facts.problem import build_problem
from builds.planner.files import problem_from
from builds.work.models.link import StationHold
from tests.builds.plan.plan_kit import enter, evenings, worked
from tests.factories import (
    NOW,
    JobFactory,
    JobStationFactory,
    LinkFactory,
    SkillFactory,
    StationFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db
HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def job(car, cast, **more):
    return JobFactory(vehicle=car, made_by=cast.owner, **more)


def problem_at(cast, at=NOW):
    return build_problem(cast.garage, at)[0]


def row_of(problem, row):
    return next(each for each in problem.jobs if each.id == f"job-{row.pk}")


def test_slot_nought_is_the_next_quarter_of_an_hour(cast):
    assert problem_at(cast, NOW).start == "2027-03-02T17:00:00+00:00"
    assert problem_at(cast, NOW + timedelta(seconds=1)).start == "2027-03-02T17:15:00+00:00"


@pytest.mark.parametrize(("leaves", "days"), [(3, 28), (40, 47), (400, 180)])
def test_the_horizon_is_a_week_past_the_last_date_within_bounds(cast, car, leaves, days):
    enter(car, NOW + leaves * DAY)
    assert problem_at(cast).slots == days * 96


def test_due_and_weight_come_from_the_next_event_that_can_still_be_made(cast, car):
    one = job(car, cast)
    enter(car, NOW - HOUR, weight=9, name="It left an hour ago")
    enter(car, NOW + 5 * DAY, weight=2)
    enter(car, NOW + 3 * DAY + timedelta(minutes=20), weight=4)
    problem = problem_at(cast)
    assert row_of(problem, one).due == 3 * 96 + 1
    assert [(row.name, row.weight) for row in problem.vehicles] == [("Heron", 4)]


def test_without_an_event_ahead_there_is_no_date(cast, car):
    one = job(car, cast)
    enter(car, NOW - 9 * DAY)
    assert row_of(problem_at(cast), one).due is None
    assert problem_at(cast).vehicles[0].weight < 1


def test_people_who_work_with_their_skills_and_hours(cast):
    evenings(cast.owner, days=[1, 3])
    cast.owner.skills.add(SkillFactory(garage=cast.garage, slug="weld", name="Welding"))
    cast.viewer.works = False
    cast.viewer.save()
    people = problem_at(cast).people
    assert [row.name for row in people] == ["Ines", "Tove"]
    assert people[0].skills == ("Welding",)
    assert people[0].windows[:2] == ((4, 20), (196, 212))
    assert people[1].windows == ()


def test_hours_keep_to_the_wall_through_a_clock_change(cast):
    zone = ZoneInfo("Europe/Berlin")
    cast.garage.time_zone = zone.key
    cast.garage.save()
    evenings(cast.owner)
    at = datetime(2027, 3, 27, 12, 0, tzinfo=zone)  # clocks go forward in the coming night
    problem = problem_at(cast, at)
    start = datetime.fromisoformat(problem.start)
    began = [start + timedelta(minutes=15 * window[0]) for window in problem.people[0].windows[:3]]
    assert [moment.astimezone(zone).hour for moment in began] == [18, 18, 18]
    assert [b - a for a, b in pairwise(began)] == [23 * HOUR, 24 * HOUR]


def test_a_wait_that_runs_behind_finished_work_opens_the_next_job(cast, car):
    cured = job(car, cast, state="done", finished_at=NOW - HOUR)
    refit, paint = job(car, cast), job(car, cast)
    LinkFactory(before=cured, after=refit, wait_minutes=12 * 60)
    LinkFactory(before=cured, after=paint, wait_minutes=30)
    problem = problem_at(cast)
    assert (row_of(problem, refit).earliest, row_of(problem, paint).earliest) == (44, 0)
    assert problem.links == ()


def test_dropped_work_passes_the_order_on(cast, car):
    prime = job(car, cast, title="Prime")
    sand = job(car, cast, title="Sand", state="dropped")
    topcoat = job(car, cast, title="Topcoat")
    LinkFactory(before=prime, after=sand, wait_minutes=600)
    LinkFactory(before=sand, after=topcoat, wait_minutes=5)
    links = problem_at(cast).links
    assert [(row.before, row.after, row.wait) for row in links] == [(f"job-{prime.pk}", f"job-{topcoat.pk}", 40)]


def test_a_hold_that_runs_begins_with_a_fact_at_once(cast, car):
    bay = StationFactory(garage=cast.garage)
    strip = job(car, cast, state="done", finished_at=NOW - HOUR)
    refit, wheels = job(car, cast), job(car, cast)
    StationHold.objects.create(station=bay, first=strip, last=refit)
    StationHold.objects.create(station=bay, first=refit, last=wheels)
    problem = problem_at(cast)
    fact = next(row for row in problem.jobs if row.id.startswith("fact-"))
    assert (fact.work, fact.hands, fact.pinned, fact.vehicle) == (0, 0, 0, f"car-{car.pk}")
    assert [(row.start, row.until) for row in problem.holds] == [
        (fact.id, f"job-{refit.pk}"),
        (f"job-{refit.pk}", f"job-{wheels.pk}"),
    ]


@pytest.mark.parametrize("state", ["dropped", "done"])
def test_a_hold_without_an_end_or_a_beginning_to_come_is_none(cast, car, state):
    bay = StationFactory(garage=cast.garage)
    over, ahead = job(car, cast, state=state), job(car, cast)
    ends = (ahead, over) if state == "done" else (over, ahead)
    StationHold.objects.create(station=bay, first=ends[0], last=ends[1])
    assert problem_at(cast).holds == ()


def test_a_job_in_hand_keeps_its_people_and_counts_what_is_left(cast, car):
    weld = SkillFactory(garage=cast.garage, slug="weld")
    one = job(car, cast, state="in_hand", likely_minutes=120, hands=2, skill=weld)
    worked(one, NOW - 80 * HOUR / 60, None, cast.helper)
    row = row_of(problem_at(cast), one)
    assert (row.started, row.crew, row.hands) == (True, (f"person-{cast.helper.pk}",), 1)
    assert (row.work, row.skill) == (3, None)  # 40 minutes of 120, in whole slots


def test_work_that_overran_has_one_slot_left(cast, car):
    one = job(car, cast, state="in_hand", likely_minutes=60)
    worked(one, NOW - 5 * HOUR, None, cast.helper)
    assert row_of(problem_at(cast), one).work == 1


def test_put_down_work_counts_what_somebody_said_is_left(cast, car):
    said = job(car, cast, state="waiting", likely_minutes=120, left_minutes=200)
    unsaid = job(car, cast, state="held", likely_minutes=120)
    for one in (said, unsaid):
        worked(one, NOW - 3 * HOUR, NOW - 2 * HOUR, cast.helper)
    problem = problem_at(cast)
    assert (row_of(problem, said).work, row_of(problem, unsaid).work) == (14, 4)
    assert row_of(problem, said).crew is None


def test_a_crew_that_has_left_is_planned_anew(cast, car):
    one = job(car, cast, state="in_hand")
    worked(one, NOW - HOUR / 4, None, cast.helper)
    cast.helper.left_at = NOW
    cast.helper.save()
    row = row_of(problem_at(cast), one)
    assert (row.crew, row.started) == (None, True)


def test_pinned_starts_hold_while_they_are_ahead(cast, car):
    ahead = job(car, cast, pinned_at=NOW + DAY)
    past = job(car, cast, pinned_at=NOW - HOUR)
    far = job(car, cast, earliest_at=NOW + 4000 * DAY)
    problem = problem_at(cast)
    assert (row_of(problem, ahead).pinned, row_of(problem, past).pinned) == (96, None)
    assert row_of(problem, far).earliest == problem.slots == 180 * 96


def test_more_hands_than_there_are_people_is_refused_in_a_sentence(cast, car):
    one = job(car, cast, hands=5)
    problem, basis = build_problem(cast.garage, NOW)
    assert basis.refused == {
        f"job-{one.pk}": (
            "It needs 5 at once, and 3 people work here: ask who can come, add a person, or say that fewer do it."
        )
    }
    assert row_of(problem, one).hands == 5  # it has a place once somebody comes


def test_other_garages_and_cars_that_are_gone_stay_out(cast, car):
    JobFactory(vehicle=VehicleFactory(garage=cast.stranger.garage))
    gone = VehicleFactory(garage=cast.garage, gone_at=NOW)
    lost, kept = job(gone, cast), job(car, cast)
    LinkFactory(before=lost, after=kept)
    problem = problem_at(cast)
    assert [row.id for row in problem.jobs] == [f"job-{kept.pk}"]
    assert problem.links == ()


def test_a_problem_is_stored_in_the_keys_of_a_problem_file(cast, car):
    bay = StationFactory(garage=cast.garage)
    first, last = job(car, cast), job(car, cast)
    JobStationFactory(job=first, station=bay)
    LinkFactory(before=first, after=last, wait_minutes=90, why="it cools")
    StationHold.objects.create(station=bay, first=first, last=last)
    evenings(cast.owner)
    problem = problem_at(cast)
    table = problem_table(problem)
    assert table["holds"][0]["from"] == f"job-{first.pk}"
    assert problem_from(table) == problem


def test_as_many_queries_for_one_row_as_for_twelve(cast, car):
    def fill(count):
        bay = StationFactory(garage=cast.garage)
        for _ in range(count):
            other = VehicleFactory(garage=cast.garage)
            enter(other)
            first = job(other, cast, state="in_hand")
            worked(first, NOW - HOUR, None, cast.owner)
            second = job(other, cast)
            LinkFactory(before=first, after=second)
            JobStationFactory(job=second, station=bay)
            StationHold.objects.create(station=bay, first=first, last=second)

    fill(1)
    evenings(cast.owner)
    with CaptureQueriesContext(
        connection,
    ) as few:
        problem_at(cast)
    fill(11)
    evenings(cast.helper)
    with CaptureQueriesContext(connection) as many:
        problem = problem_at(cast)
    assert len(problem.jobs) == 36
    assert len(many) == len(few)


def test_moments_are_kept_in_utc(cast):
    assert problem_at(cast, NOW.astimezone(ZoneInfo("Asia/Tokyo"))).start == NOW.isoformat()
    assert datetime.fromisoformat(problem_at(cast).start).tzinfo == UTC

"""The plan page: verdicts, the list and the strip, whatever the garage lacks."""

import re
from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.work.models.states import State
from tests.builds.plan.plan_kit import enter, evenings, job, main, planned, text
from tests.factories import (
    NOW,
    HoldPointFactory,
    JobStationFactory,
    LinkFactory,
    SkillFactory,
    StationFactory,
    VehicleFactory,
)
from tests.pages import written

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_weld_prime_cure_refit_align_with_other_work_in_the_cure(cast, owner, car):
    bay = StationFactory(garage=cast.garage, name="Bay")
    titles = ["Weld the arm", "Prime the arm", "Refit the arm", "Align the front"]
    chain = [job(car, cast, title, rank="safety") for title in titles]
    for before, after in pairwise(chain):
        wait = 14 * 60 if before.title == "Prime the arm" else 0
        LinkFactory(before=before, after=after, wait_minutes=wait, why="the primer cures" * bool(wait))
    JobStationFactory(job=chain[2], station=bay)
    job(car, cast, "Fit the fan")
    enter(car)
    planned(cast.garage)
    body = text(owner)
    listed = body[body.index('id="plan-list"') :]
    order = [*titles[:2], "Fit the fan", "Ready Wed 10:00", *titles[2:]]
    places = [re.search(rf"</span>{name}|>{name}<", listed).start() for name in order]
    assert places == sorted(places)
    said = main(owner)
    assert "Ready Wed 10:00" in said
    assert "Then “Refit the arm” may start." in said
    assert "The primer cures: Wed 10:00" in said
    assert "By the plan ready Wed 20:00, in time; the odds are being worked out." in said


def test_each_line_says_when_who_on_what_and_why(cast, car, owner, helper):
    evenings(cast.helper)
    lift = job(car, cast, "Lift the engine", hands=2, rank="safety", likely_minutes=90)
    job(car, cast, "Long one", likely_minutes=300, high_minutes=300)
    HoldPointFactory(job=lift, what="Look at the hoist")
    planned(cast.garage)
    said = main(owner)
    assert "18:00 to 19:30 Lift the engine" in said
    assert "Ines and Tove Heron" in said
    assert "part 1 of 2" in said
    assert "part 2 of 2" in said
    assert "Ends at a hold point: Look at the hoist" in said
    assert "does “Lift the engine” first, planned from Tue 18:00 until Tue 19:30." in said


def test_work_on_hold_says_that_it_needs_a_signature_first(cast, car, owner):
    held = job(car, cast, "Refit the arm", state=State.HELD, state_note="second pair of eyes")
    HoldPointFactory(job=held, what="Look at the welds")
    planned(cast.garage)
    said = main(owner)
    assert "On hold: second pair of eyes" in said
    assert "Needs a signature first: Look at the welds" in said
    assert "on hold" in said


def test_today_and_tomorrow_are_open_and_other_days_say_what_they_hold(cast, car, owner):
    job(car, cast, "Long one", likely_minutes=13 * 60, high_minutes=13 * 60)
    planned(cast.garage)
    body = written(text(owner))
    assert '<h3 class="masking">Today, Tuesday 2 March</h3>' in body
    assert '<h3 class="masking">Tomorrow, Wednesday 3 March</h3>' in body
    assert '<details class="fold"><summary>Thu 4 Mar: 1 job, 4 h</summary>' in body
    assert '<details class="fold"><summary>Fri 5 Mar: 1 job, 1 h</summary>' in body
    asked = written(text(owner, "/plan/?day=2027-03-05"))
    assert '<h3 class="masking">Friday 5 March</h3>' in asked
    assert "<summary>Tue 2 Mar: 1 job, 4 h</summary>" in asked


def test_the_day_that_is_open_shows_three_lines_and_says_what_the_rest_holds(cast, car, owner):
    for number in range(8):
        job(car, cast, f"Short {number}", low_minutes=15, likely_minutes=15, high_minutes=15)
    planned(cast.garage)
    body = written(text(owner))
    assert "<summary>The rest of today: 5 jobs, 1 h 15</summary>" in body
    assert all(f"Short {number}" in body for number in range(8))


def test_today_and_tomorrow_share_three_lines(cast, car, owner):
    for number in range(8):
        job(car, cast, f"Long {number}", low_minutes=60, likely_minutes=60, high_minutes=60)
    planned(cast.garage)
    body = written(text(owner))
    near = body[body.index('class="plan-near"') : body.index('class="folds"', body.index('class="plan-near"'))]
    shown = [day.split("<details")[0].count('class="work-title"') for day in near.split('<section class="bay" ')[1:]]
    assert shown == [2, 1]
    assert "<summary>The rest of tomorrow: 3 jobs, 3 h</summary>" in near


def test_times_keep_to_the_wall_through_a_clock_change(cast, owner, monkeypatch):
    cast.garage.time_zone = "Europe/Berlin"
    cast.garage.save()
    evenings(cast.owner)
    car = VehicleFactory(garage=cast.garage)
    at = datetime(2027, 3, 27, 16, 0, tzinfo=UTC)  # the night in which clocks go forward
    monkeypatch.setattr("garage.clock.now", lambda: at)
    prime, refit = (
        job(car, cast, "Prime"),
        job(car, cast, "Refit", likely_minutes=240, high_minutes=240),
    )
    LinkFactory(before=prime, after=refit, wait_minutes=12 * 60)
    planned(cast.garage, at)
    said = main(owner)
    assert "18:00 to 19:00 Prime" in said
    assert "Ready Sun 08:00" in said
    assert "18:00 to 22:00 Refit" in said


def test_an_empty_garage_and_one_without_people_hours_or_dates(cast, owner):
    assert "No jobs to plan" in main(owner)
    car = VehicleFactory(garage=cast.garage)
    job(car, cast)
    assert "Nobody has hours yet" in main(owner)
    evenings(cast.owner)
    assert "No car is entered for an event ahead" in main(owner)
    enter(car)
    assert "yet, so" not in main(owner)
    for member in (cast.owner, cast.helper, cast.viewer):
        member.works = False
        member.save()
    planned(cast.garage)
    said = main(owner)
    assert "Nobody works here yet" in said
    assert "It needs 1 at once, and nobody works here" in said
    assert "No job finds a place." in said


def test_jobs_are_counted_as_they_are_now_beside_the_moment_of_the_plan(cast, car, owner):
    first, _ = job(car, cast), job(car, cast)
    planned(cast.garage)
    assert "2 jobs are open. Planned Tue 2 Mar 17:00, and again by itself when something changes." in main(owner)
    first.delete()
    assert "1 job is open. Planned Tue 2 Mar 17:00, and again by itself" in main(owner)


def test_jobs_without_a_place_say_what_to_do(cast, car, owner):
    job(car, cast, "Weld", skill=SkillFactory(garage=cast.garage, slug="weld"))
    job(car, cast, "Spray", splits=False, likely_minutes=300, high_minutes=300)
    enter(car)
    planned(cast.garage)
    said = main(owner)
    left = said[said.index("Without a place") :]
    assert "Nobody has the skill “weld”: teach somebody, or find somebody who has it." in left
    assert "needs 5 h" in left
    assert "Will not make it: two jobs find no place in the plan." in said


def test_where_a_job_has_no_place_the_owner_asks_who_can_come(cast, car, owner, helper):
    job(car, cast, "Lift the engine", hands=4)
    planned(cast.garage)
    ask = '<a class="button" href="/visits/add/">Ask who can come</a>'
    assert ask in owner.get("/plan/").content.decode()
    assert ask not in helper.get("/plan/").content.decode()


def test_what_only_waits_for_work_without_a_place_is_folded_with_its_count(cast, car, owner):
    weld = job(car, cast, "Weld", skill=SkillFactory(garage=cast.garage, slug="weld"))
    paint, fit = job(car, cast, "Paint"), job(car, cast, "Fit")
    LinkFactory(before=weld, after=paint)
    LinkFactory(before=paint, after=fit)
    planned(cast.garage)
    said = main(owner)
    left = said[said.index("Without a place: 3") :]
    assert left.index("Weld") < left.index("Waiting for these: 2") < left.index("Fit")


def test_people_who_never_meet_are_named_and_the_rest_is_planned(cast, car, owner):
    for member in (cast.helper, cast.viewer):
        evenings(member, since=8, until=12)
    cast.viewer.works = False
    cast.viewer.save()
    job(car, cast, "Lift the engine", hands=2)
    job(car, cast, "Fit the fan")
    plan = planned(cast.garage)
    assert [row.title for row in plan.problem.jobs if row.id in plan.placed] == ["Fit the fan"]
    assert "Ines and Tove are never in at the same time: agree on hours." in main(owner)


def test_an_event_in_the_past_asks_for_nothing(cast, car, owner):
    job(car, cast)
    enter(car, NOW - 9 * DAY, name="Long gone")
    planned(cast.garage)
    assert "Long gone" not in main(owner)


def test_markup_in_names_is_shown_and_long_names_fit(cast, car, owner):
    car.name = "<b>Heron</b>"
    car.save()
    job(car, cast, "<script>alert(1)</script>" + "x" * 90)
    person = cast.owner.person
    person.name = "<i>Ines</i>"
    person.save()
    enter(car)
    planned(cast.garage)
    body = text(owner)
    assert "<script>alert" not in body
    assert "<b>Heron" not in body
    assert "<i>Ines" not in body
    assert "&lt;script&gt;alert(1)" in body


def test_the_same_queries_for_one_job_and_for_twelve(cast, owner, car):
    def fill(count):
        for _ in range(count):
            other = VehicleFactory(garage=cast.garage)
            first, second = job(other, cast, rank="safety"), job(other, cast)
            LinkFactory(before=first, after=second, wait_minutes=60)
            JobStationFactory(job=second, station=StationFactory(garage=cast.garage))
            HoldPointFactory(job=second)
            over = job(other, cast, state=State.DONE, finished_at=NOW)
            LinkFactory(before=over, after=second, wait_minutes=600)
            enter(other)

    fill(1)
    planned(cast.garage)
    owner.get("/plan/")
    with CaptureQueriesContext(connection) as few:
        owner.get("/plan/")
    fill(11)
    planned(cast.garage)
    with CaptureQueriesContext(connection) as many:
        assert owner.get("/plan/").status_code == 200
    assert len(many) == len(few)

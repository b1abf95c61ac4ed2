"""Planning the garage: stored only when sound, kept where it still holds, never before now."""

from dataclasses import replace
from datetime import timedelta

import pytest

from builds.plan.actions import plans
from builds.plan.actions.follow import make_plan
from builds.plan.actions.plans import KEPT
from builds.plan.facts.stored import read
from builds.plan.models import Plan
from builds.plan.pages.moves import moves
from builds.planner.check import faults
from builds.planner.search import FaultyPlan
from builds.work.models.link import Link, StationHold
from garage.actions.refused import Refused
from tests.builds.plan.plan_kit import enter, evenings, planned, starts, worked
from tests.factories import (
    NOW,
    JobFactory,
    JobStationFactory,
    LinkFactory,
    StationFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db
HOUR = timedelta(hours=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


def job(car, cast, title, **more):
    return JobFactory(vehicle=car, made_by=cast.owner, title=title, **more)


def test_a_plan_is_stored_with_its_problem_and_what_it_was_made_from(cast, car):
    one = job(car, cast, "Fit the fan")
    enter(car)
    row = make_plan(cast.garage, at=NOW)
    plan = read(row, cast.garage)
    assert starts(plan) == {"Fit the fan": ("Tue 18:00", "Tue 19:00", "Ines")}
    assert faults(plan.problem, plan.answer) == []
    assert row.made_from["jobs"][f"job-{one.pk}"]["called"] == "Fit the fan"
    assert (row.use, row.made_by, row.made_at) == ("shown", None, NOW)


def test_a_plan_with_a_fault_is_never_stored(cast, car, monkeypatch):
    job(car, cast, "Fit the fan")

    def early(problem, **more):
        found = plan(problem, **more)
        return replace(found, placed=(replace(found.placed[0], start=0, end=4),))

    plan = plans.plan
    monkeypatch.setattr(plans, "plan", early)
    with pytest.raises(FaultyPlan):
        make_plan(cast.garage, at=NOW)
    assert not Plan.objects.exists()


def test_links_in_a_circle_are_refused_with_the_circle_spelled_out(cast, car):
    one, two = job(car, cast, "Weld"), job(car, cast, "Prime")
    Link.objects.create(before=one, after=two)
    Link.objects.create(before=two, after=one)
    with pytest.raises(Refused, match=r"in a circle: (“Weld” -> “Prime” -> “Weld”|“Prime” -> “Weld” -> “Pr)"):
        make_plan(cast.garage, at=NOW)
    assert not Plan.objects.exists()


def test_nothing_starts_before_now_and_work_in_hand_stays_with_its_people(cast, car):
    evenings(cast.helper)
    for number in range(6):
        job(car, cast, f"Job {number}")
    busy = job(car, cast, "In hand", state="in_hand", rank="wanted", likely_minutes=120)
    at = NOW + 2 * HOUR + timedelta(minutes=20)
    worked(busy, at - HOUR, None, cast.helper)
    found = starts(planned(cast.garage, at))
    assert found["In hand"] == ("Tue 19:30", "Tue 20:30", "Tove")
    assert min(start for start, *_ in found.values()) == "Tue 19:30"


def test_safety_comes_first_when_two_jobs_want_the_same_evening(cast, car):
    job(car, cast, "Wax", rank="wanted", likely_minutes=240, high_minutes=240)
    job(car, cast, "Brakes", rank="safety", likely_minutes=240, high_minutes=240)
    found = starts(planned(cast.garage))
    assert found["Brakes"][0] == "Tue 18:00"
    assert found["Wax"][0] == "Wed 18:00"


def test_a_plan_that_still_holds_and_is_no_worse_stays(cast, car):
    first, second = job(car, cast, "One"), job(car, cast, "Two")
    before = planned(cast.garage)
    swapped = _swap(before, f"job-{first.pk}", f"job-{second.pk}")
    draft = plans.PlanningCase.of(before)
    plans.put_up(cast.garage, draft, swapped, before=before, at=NOW + timedelta(minutes=1))
    again = planned(cast.garage, NOW + timedelta(minutes=5))
    assert starts(again)["Two"][0] == "Tue 18:00"
    assert moves(again) == []


def _swap(plan, one, two):
    rows = {row.id: row for row in plan.answer.placed}
    changed = [
        replace(rows[one], start=rows[two].start, end=rows[two].end),
        replace(rows[two], start=rows[one].start, end=rows[one].end),
    ]
    return replace(plan.answer, placed=tuple(sorted(changed, key=lambda row: row.start)))


def test_what_moved_is_told_with_the_reason(cast, car):
    wax = job(car, cast, "Wax", rank="wanted", likely_minutes=240, high_minutes=240)
    planned(cast.garage)
    job(car, cast, "Brakes", rank="safety", likely_minutes=240, high_minutes=240)
    plan = planned(cast.garage, NOW + timedelta(minutes=1))
    found = moves(plan)
    assert [(move.title, move.what) for move in found] == [("Wax", "Wed 18:00 instead of Tue 18:00")]
    assert "Brakes" in found[0].why
    assert found[0].url == f"/jobs/{wax.pk}/"


def test_a_stripped_car_keeps_its_station_from_now(cast, car):
    bay = StationFactory(garage=cast.garage, name="Bay")
    strip = job(car, cast, "Strip", state="done", finished_at=NOW - HOUR)
    refit = job(car, cast, "Refit", rank="wanted")
    StationHold.objects.create(station=bay, first=strip, last=refit)
    other = job(VehicleFactory(garage=cast.garage, name="Moth"), cast, "Brakes", rank="safety")
    for one in (refit, other):
        JobStationFactory(job=one, station=bay)
    evenings(cast.helper)
    found = starts(planned(cast.garage))
    assert found["Refit"][1] <= found["Brakes"][0]


def test_more_hands_than_people_leaves_it_and_its_followers_without_a_place(cast, car):
    lift, refit = job(car, cast, "Lift the engine", hands=4), job(car, cast, "Refit")
    LinkFactory(before=lift, after=refit)
    plan = planned(cast.garage)
    assert plan.unplaced[f"job-{lift.pk}"].why == (
        "It needs 4 at once, and 3 people work here: ask who can come, add a person, or say that fewer do it."
    )
    assert "waits for “Lift the engine”" in plan.unplaced[f"job-{refit.pk}"].why


def test_a_plan_under_which_no_session_began_is_replaced_and_so_many_others_are_kept(cast, car):
    job(car, cast, "Fit the fan", likely_minutes=9000, high_minutes=9000)
    tried = plans.draft(cast.garage, NOW, None)
    trial = plans.keep(cast.garage, tried, plans.answer(tried), by=None, at=NOW)
    other = make_plan(cast.stranger.garage, at=NOW)
    kept = Plan.objects.in_garage(cast.garage).shown()
    for day in range(KEPT + 2):
        for minute in range(3):
            make_plan(cast.garage, at=NOW + timedelta(days=day, minutes=minute))
        # The last of each day stood when its evening began; that of today is on the wall.
        assert kept.count() == min(day + 1, KEPT)
    stood = [plan.session_at for plan in kept.stood(NOW + timedelta(days=99))]
    assert stood == [NOW + timedelta(days=day, hours=1) for day in range(KEPT + 1, 1, -1)]
    assert set(Plan.objects.filter(pk__in=[trial.pk, other.pk])) == {trial, other}

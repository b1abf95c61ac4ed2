"""What the plan by itself means for each entered car, in three queries however many there are."""

from dataclasses import replace
from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.plan.facts.outcomes import outcomes
from builds.plan.facts.stored import shown
from tests.builds.plan.plan_kit import enter, evenings, planned
from tests.factories import NOW, JobFactory, LinkFactory, SkillFactory, VehicleFactory

pytestmark = pytest.mark.django_db
HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


def job(car, cast, title="Fit the fan", **more):
    return JobFactory(vehicle=car, made_by=cast.owner, title=title, **more)


def test_in_time_and_what_is_first_in_its_way(cast, car):
    job(car, cast)
    entry = enter(car, NOW + DAY)  # Wednesday 17:00, an hour before the next session
    planned(cast.garage)
    found = outcomes(cast.garage, shown(cast.garage), NOW)[entry.pk]
    assert (found.in_time, found.sentence) == (True, "ready Tue 19:00, in time.")
    assert found.ready_at == NOW + 2 * HOUR
    assert found.obstacle == "Ines is not in before Tue 18:00, so “Fit the fan” waits."


def test_too_late_with_the_chain_back_to_now(cast, car):
    prime, refit = job(car, cast, "Prime"), job(car, cast, "Refit")
    LinkFactory(before=prime, after=refit, wait_minutes=12 * 60, why="the primer cures")
    entry = enter(car, NOW + DAY)
    planned(cast.garage)
    found = outcomes(cast.garage, shown(cast.garage), NOW)[entry.pk]
    assert (found.in_time, found.sentence) == (False, "ready Wed 19:00, 2 h too late.")
    assert found.chain[0].startswith("Ines is not in before Wed 18:00, so “Refit”")
    assert found.obstacle == found.chain[-1]


def test_what_leads_back_to_work_on_another_car_says_on_which(cast, car):
    job(car, cast, rank="safety")
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    prime = job(badger, cast, "Prime the arm")
    LinkFactory(before=prime, after=job(badger, cast, "Paint the arm"))
    first, then = enter(car), enter(badger)
    planned(cast.garage)
    found = outcomes(cast.garage, shown(cast.garage), NOW)
    assert found[then.pk].chain[-2:] == (
        "Ines does “Fit the fan” first, planned from Tue 18:00 until Tue 19:00, so “Prime the arm” waits."
        " “Fit the fan” is work on Heron.",
        "Ines is not in before Tue 18:00, so “Fit the fan” waits. “Fit the fan” is work on Heron.",
    )
    assert found[then.pk].obstacle == found[then.pk].chain[-1]
    assert found[first.pk].obstacle == "Ines is not in before Tue 18:00, so “Fit the fan” waits."


def test_wanted_work_stands_in_no_cars_way(cast, car):
    job(car, cast, rank="wanted", likely_minutes=600, high_minutes=600)
    entry = enter(car, NOW + DAY)
    planned(cast.garage)
    assert outcomes(cast.garage, shown(cast.garage), NOW)[entry.pk].in_time is True


def test_work_without_a_place_says_what_to_do(cast, car):
    weld, refit = (
        job(car, cast, "Weld", skill=SkillFactory(garage=cast.garage, slug="weld")),
        job(car, cast, "Refit"),
    )
    LinkFactory(before=weld, after=refit)
    entry = enter(car)
    planned(cast.garage)
    found = outcomes(cast.garage, shown(cast.garage), NOW)[entry.pk]
    assert (found.in_time, found.sentence) == (False, "two jobs find no place in the plan.")
    assert (
        found.obstacle
        == "“Weld” has no place. Nobody has the skill “weld”: teach somebody, or find somebody who has it."
    )


def test_not_planned_and_not_yet_in_the_plan_are_not_known(cast, car):
    job(car, cast)
    entry = enter(car)
    found = outcomes(cast.garage, shown(cast.garage), NOW)[entry.pk]
    assert (found.in_time, found.sentence) == (None, "not planned yet.")
    planned(cast.garage)
    job(car, cast, "Bleed the brakes")
    found = outcomes(cast.garage, shown(cast.garage), NOW)[entry.pk]
    assert found.in_time is None
    assert found.sentence == "not known: “Bleed the brakes” came after this plan."


def test_a_job_that_came_after_the_plan_softens_no_will_not(cast, car):
    job(car, cast, "Weld", skill=SkillFactory(garage=cast.garage, slug="weld"))
    entry = enter(car)
    planned(cast.garage)
    job(car, cast, "Bleed the brakes")
    outcome = outcomes(cast.garage, shown(cast.garage), NOW)[entry.pk]
    assert (outcome.in_time, outcome.sentence) == (False, "one job finds no place in the plan.")


def test_a_job_that_came_after_the_plan_softens_no_too_late(cast, car):
    job(car, cast)
    entry = enter(car, NOW + HOUR)
    planned(cast.garage)
    late = outcomes(cast.garage, shown(cast.garage), NOW)[entry.pk]
    assert late.in_time is False
    job(car, cast, "Bleed the brakes")
    assert outcomes(cast.garage, shown(cast.garage), NOW)[entry.pk] == replace(late, whole=False)


def test_finished_work_stands_in_the_way_no_more(cast, car):
    one = job(car, cast)
    entry = enter(car)
    planned(cast.garage)
    one.state, one.finished_at = "done", NOW + HOUR
    one.save()
    found = outcomes(cast.garage, shown(cast.garage), NOW + 2 * HOUR)[entry.pk]
    assert (found.in_time, found.ready_at) == (True, NOW + 2 * HOUR)
    assert found.sentence == "no work is left before it leaves."


def test_a_ready_time_that_has_passed_is_not_known(cast, car):
    job(car, cast)
    entry = enter(car, NOW + 20 * HOUR)
    planned(cast.garage)
    assert outcomes(cast.garage, shown(cast.garage), NOW + HOUR)[entry.pk].in_time is True
    late = outcomes(cast.garage, shown(cast.garage), NOW + 2 * HOUR)[entry.pk]  # Tue 19:00, when it was to be ready
    assert (late.in_time, late.sentence) == (None, "not known: the work is behind this plan.")


def test_a_car_that_should_have_left_does_not_make_it_and_a_past_event_is_no_entry(cast, car):
    job(car, cast)
    on = enter(car, NOW - HOUR)
    over = enter(car, NOW - 3 * DAY)
    planned(cast.garage)
    found = outcomes(cast.garage, shown(cast.garage), NOW)
    assert found[on.pk].in_time is False
    assert found[on.pk].sentence == "it should have left, and one job is still to do."
    assert over.pk not in found


def test_three_queries_for_one_car_and_for_twelve(cast, car):
    def fill(count):
        for _ in range(count):
            other = VehicleFactory(garage=cast.garage)
            job(other, cast)
            enter(other)

    fill(1)
    planned(cast.garage)
    with CaptureQueriesContext(connection) as few:
        outcomes(cast.garage, shown(cast.garage), NOW)
    fill(11)
    planned(cast.garage)
    with CaptureQueriesContext(connection) as many:
        assert len(outcomes(cast.garage, shown(cast.garage), NOW)) == 12
    assert (len(few), len(many)) == (3, 3)

"""What people go by stays: promises of the session, and the order that a search found."""

from dataclasses import replace
from datetime import timedelta

import pytest

from builds.plan.actions import plans
from builds.plan.facts.stored import promised, shown
from builds.plan.models import Plan
from builds.plan.pages.moves import moves
from builds.work.models.job import Job
from builds.work.models.states import State
from tests.builds.plan.plan_kit import enter, evenings, followed, job, planned, starts
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.django_db
HOUR, MINUTE = timedelta(hours=1), timedelta(minutes=1)
SIX = NOW + HOUR  # the evening begins


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    evenings(cast.helper)
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_what_stood_when_the_session_began_is_promised_however_often_somebody_taps(cast, car):
    job(car, cast, "Wax", rank="wanted", likely_minutes=240, high_minutes=240)
    job(car, cast, "Polish", rank="wanted", likely_minutes=240, high_minutes=240)
    job(car, cast, "Sand", rank="wanted", likely_minutes=240, high_minutes=240)
    stood = planned(cast.garage)
    where = starts(stood)
    for tap in range(1, 11):  # each a job that has to go first
        job(car, cast, f"Brake {tap}", rank="safety", likely_minutes=60, high_minutes=60)
        plan = followed(cast.garage, SIX + tap * MINUTE)
        assert promised(cast.garage, SIX + tap * MINUTE).row == stood.row
        assert len(plan.problem.before) == 3
    moved = {move.title: move.what for move in moves(plan)}
    now = starts(plan)
    for title in ("Wax", "Polish", "Sand"):
        if now[title][0] != where[title][0]:
            assert moved[title].startswith(f"{now[title][0]} instead of {where[title][0]}")
    assert moved
    assert Plan.objects.in_garage(cast.garage).shown().count() == 2
    Job.objects.filter(title__startswith="Brake").update(state=State.DROPPED)
    assert followed(cast.garage, SIX + 12 * MINUTE).row.made_at == SIX + 12 * MINUTE
    assert {title: who for title, (_, _, *who) in starts(shown(cast.garage)).items()} == {
        title: who for title, (_, _, *who) in where.items()
    }


def test_a_plan_that_a_search_found_is_not_thrown_away_by_a_tap(cast, car):
    """Two cars; the first list does the wrong one first, and the order that was found survives a new job."""
    first, second = job(car, cast, "One", hands=2), job(car, cast, "Two", hands=2)
    before = planned(cast.garage)
    rows = {place.id: place for place in before.answer.placed}
    one, two = rows[f"job-{first.pk}"], rows[f"job-{second.pk}"]
    swapped = replace(
        before.answer,
        placed=(
            replace(two, start=one.start, end=one.end),
            replace(one, start=two.start, end=two.end),
        ),
    )
    plans.put_up(cast.garage, plans.PlanningCase.of(before), swapped, before=before, at=NOW)
    job(car, cast, "Three", hands=2, rank="wanted")
    plan = followed(cast.garage, NOW + MINUTE)
    assert [starts(plan)[title][0] for title in ("Two", "One", "Three")] == ["Tue 18:00", "Tue 19:00", "Tue 20:00"]


def test_a_lost_event_does_not_throw_the_order_of_everything_else(cast):
    """Heron cannot make it: its work still goes before that of a car that no event waits for."""
    evenings(cast.owner)
    heron, moth = (VehicleFactory(garage=cast.garage, name=name) for name in ("Heron", "Moth"))
    for number in range(3):
        job(moth, cast, f"Moth {number}", likely_minutes=120, high_minutes=120)
        job(heron, cast, f"Heron {number}", likely_minutes=120, high_minutes=120)
    enter(heron, NOW + 30 * HOUR)
    where = starts(planned(cast.garage))
    assert max(where[f"Heron {number}"][0] for number in range(3)) == "Wed 18:00"
    for hours in range(1, 30):  # nobody works, until it is lost
        plan = followed(cast.garage, NOW + hours * HOUR)
        order = sorted(plan.placed.values(), key=lambda place: place.start)
        assert {plan.jobs[place.id].title[:5] for place in order[:3]} == {"Heron"}, hours
    assert order[2].end > plan.jobs[order[2].id].due

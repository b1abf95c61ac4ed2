"""What has changed since a plan was made, and what moved since the last session began."""

from datetime import timedelta

import pytest

from builds.plan.engine.changes import changes_since
from builds.plan.facts.basis import basis_of
from builds.plan.facts.rows import fetch
from builds.work.models.states import State
from tests.builds.plan.plan_kit import enter, evenings, job, main, planned
from tests.factories import NOW, VehicleFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


def changes(cast, plan, at=NOW):
    return changes_since(plan.row.made_from, basis_of(fetch(cast.garage, at)), at)


def test_what_changed_since_a_plan(cast, car):
    fan, hose, old = (job(car, cast, title) for title in ("Fit the fan", "Swap a hose", "Wax"))
    entry = enter(car)
    plan = planned(cast.garage)
    assert not changes(cast, plan)
    fan.state, fan.finished_at = State.DONE, NOW
    fan.save()
    hose.likely_minutes = hose.high_minutes = 300
    hose.save()
    old.state = State.DROPPED
    old.save()
    job(car, cast, "Bleed the brakes")
    evenings(cast.helper)
    entry.weight = 7
    entry.save()
    assert changes(cast, plan).sentence == (
        "Four jobs, the hours or skills of Tove and the date or weight of"
        " Saltmarsh Hill Climb for Heron changed since this was tried."
    )


def test_time_alone_changes_nothing(cast, car):
    job(car, cast, state=State.OPEN)
    assert not changes(cast, planned(cast.garage), NOW + 2 * HOUR)


def test_what_moved_since_the_session_began(cast, car, owner, clock):
    job(car, cast, "Wax", rank="wanted", likely_minutes=240, high_minutes=240)
    planned(cast.garage)
    lights = job(car, cast, "Lights", rank="safety", likely_minutes=240, high_minutes=240)
    planned(cast.garage)
    assert "Moved since" not in main(owner)  # nobody has gone by the first one yet
    lights.delete()
    planned(cast.garage)
    clock.forward(hours=24)
    job(car, cast, "Brakes", rank="safety", likely_minutes=240, high_minutes=240)
    planned(cast.garage, clock.at)
    assert "Wax Thu 18:00 instead of Tue 18:00" in main(owner)  # that evening passed unworked
    clock.forward(minutes=10)
    job(car, cast, "Polish", rank="wanted", likely_minutes=240, high_minutes=240)
    planned(cast.garage, clock.at)
    clock.forward(hours=1)  # Polish stood on Friday when the evening began
    job(car, cast, "Hubs", rank="safety", likely_minutes=240, high_minutes=240)
    planned(cast.garage, clock.at)
    said = main(owner)
    moved = said[said.index("Moved since ") :]
    assert moved.startswith("Moved since Wed 3 Mar 18:00: 2 Wax Fri 18:15 instead of Thu 18:00")


def test_a_job_that_is_gone_and_a_car_that_left_break_nothing(cast, car, owner):
    gone = job(car, cast, "Gone")
    job(VehicleFactory(garage=cast.garage, name="Moth"), cast, "Left")
    plan = planned(cast.garage)
    gone.delete()
    car.gone_at = NOW
    car.save()
    assert changes(cast, plan).jobs == 1
    assert "Left" in main(owner)

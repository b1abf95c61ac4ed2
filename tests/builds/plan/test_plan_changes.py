"""What the plan page says has changed, moved or fallen behind since the plan."""

from datetime import timedelta

import pytest

from builds.work.models.states import State
from tests.builds.plan.plan_kit import enter, evenings, job, main, planned
from tests.factories import NOW, MemberHoursFactory, VehicleFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_what_changed_since_the_plan_with_a_tap_to_plan_again(cast, car, owner):
    fan, hose, old = (job(car, cast, title) for title in ("Fit the fan", "Swap a hose", "Wax"))
    entry = enter(car)
    planned(cast.garage)
    assert "since this plan" not in main(owner)
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
    said = main(owner)
    assert (
        "Four jobs, the hours or skills of Tove and the date or weight of"
        " Saltmarsh Hill Climb for Heron changed since this plan." in said
    )
    for change in (
        "Fit the fan: finished",
        "Swap a hose: changed",
        "Wax: dropped",
        "Bleed the brakes: new",
    ):
        assert change in said
    assert said.count("Plan again") == 2


def test_time_alone_changes_nothing_but_work_behind_is_said(cast, car, owner, monkeypatch):
    MemberHoursFactory(member=cast.helper, weekday=1)
    job(car, cast, state=State.OPEN)
    planned(cast.garage)
    monkeypatch.setattr("garage.clock.now", lambda: NOW + 2 * HOUR)
    said = main(owner)
    assert "since this plan" not in said
    assert "The work is behind this plan." in said
    assert "Fit the fan: should have begun by now" in said


def test_what_moved_since_the_plan_before(cast, car, owner):
    job(car, cast, "Wax", rank="wanted", likely_minutes=240, high_minutes=240)
    planned(cast.garage)
    job(car, cast, "Brakes", rank="safety", likely_minutes=240, high_minutes=240)
    planned(cast.garage, NOW + timedelta(minutes=1))
    said = main(owner)
    moved = said[said.index("Moved since the plan before") :]
    assert "Wax Wed 18:00 instead of Tue 18:00" in moved


def test_a_job_that_is_gone_and_a_car_that_left_break_nothing(cast, car, owner):
    gone = job(car, cast, "Gone")
    job(VehicleFactory(garage=cast.garage, name="Moth"), cast, "Left")
    planned(cast.garage)
    gone.delete()
    car.gone_at = NOW
    car.save()
    assert "Gone: removed" in main(owner)

"""A job done overnight at an event, or at home: one tap, and when it is refused."""

from datetime import timedelta

import pytest

from builds.readings.actions.order import draw_order
from builds.scrutineering.actions import check_lists
from builds.steps.actions import jobs, nights
from builds.work.models.link import Link
from garage.actions.refused import Refused
from garage.models import Entry, Event, Night
from tests.builds.events.night_kit import HOUR, make_fair
from tests.builds.plan.plan_kit import job
from tests.builds.scrutineering.check_kit import item_of, tap
from tests.factories import NOW, EventFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def fair(cast):
    return make_fair(cast)


def test_one_tap_puts_it_there_and_another_takes_it_home(helper, fair):
    helper.press(f"/jobs/{fair.hub.pk}/night/", {"night": fair.night.pk})
    fair.hub.refresh_from_db()
    assert fair.hub.night == fair.night
    helper.press(f"/jobs/{fair.hub.pk}/night/", {})
    fair.hub.refresh_from_db()
    assert fair.hub.night is None


def test_a_night_of_another_garage_is_not_there(cast, fair):
    other = EventFactory(garage=cast.stranger.garage)
    night = Night.objects.create(event=other, from_at=NOW, until_at=NOW + HOUR, due_at=NOW + 2 * HOUR)
    answer = cast.client("owner").press(f"/jobs/{fair.hub.pk}/night/", {"night": night.pk})
    assert answer.status_code == 404


def test_work_at_home_does_not_wait_for_work_overnight_and_that_keeps_its_own_order(cast, fair):
    told = {"by": cast.owner, "at": NOW}
    springs = jobs.add(fair.heron, title="Springs", work=(30, 60, 90), kinds=["spring_change"], **told)
    weigh = jobs.add(fair.heron, title="Weigh it", work=(30, 60, 90), measures=["corner_weights"], **told)
    drawn = Link.objects.by_order().filter(before=springs, after=weigh)
    assert drawn.exists()
    nights.do_overnight(springs, fair.night, **told)
    assert not drawn.exists()
    nights.do_overnight(weigh, fair.night, **told)
    assert drawn.exists()
    nights.do_at_home(weigh, **told)
    assert not drawn.exists()
    draw_order(fair.heron)
    assert not drawn.exists()


def test_once_the_night_is_over_what_is_left_is_in_the_order_at_home(cast, fair, monkeypatch):
    told = {"by": cast.owner, "at": NOW}
    springs = jobs.add(fair.heron, title="Springs", work=(30, 60, 90), kinds=["spring_change"], **told)
    weigh = jobs.add(fair.heron, title="Weigh it", work=(30, 60, 90), measures=["corner_weights"], **told)
    nights.do_overnight(springs, fair.night, **told)
    monkeypatch.setattr("garage.clock.now", lambda: fair.night.due_at)
    draw_order(fair.heron)
    assert Link.objects.by_order().filter(before=springs, after=weigh).exists()


def test_it_is_refused_once_it_is_over(fair):
    nights.do_overnight(fair.hub, fair.night, by=fair.ines, at=fair.night.due_at - timedelta(seconds=1))
    with pytest.raises(Refused, match="That night at Saltmarsh is over"):
        nights.do_overnight(fair.hub, fair.night, by=fair.ines, at=fair.night.due_at)


def test_it_is_refused_for_a_car_that_is_not_there(cast, fair):
    moth = job(VehicleFactory(garage=cast.garage, name="Moth"), cast)
    with pytest.raises(Refused, match="Moth is not entered for Saltmarsh"):
        nights.do_overnight(moth, fair.night, by=fair.ines, at=NOW)
    Entry.objects.filter(pk=fair.entry.pk).update(withdrawn_at=NOW)
    with pytest.raises(Refused, match="Heron is not entered for Saltmarsh"):
        nights.do_overnight(fair.hub, fair.night, by=fair.ines, at=NOW)


def test_a_job_that_moves_to_another_car_is_done_at_home(cast, fair):
    fair.overnight()
    moth = VehicleFactory(garage=cast.garage, name="Moth")
    jobs.change(
        fair.hub, by=cast.owner, at=NOW, vehicle=moth, work=(30, 60, 90), systems=[], rank="needed",
        lowered_because="", stations={}, left_minutes=None,
    )  # fmt: skip
    fair.hub.refresh_from_db()
    assert (fair.hub.vehicle, fair.hub.night) == (moth, None)


def test_it_is_refused_for_a_job_that_is_over(fair):
    fair.hub.state = "dropped"
    with pytest.raises(Refused, match="“Hub bearing” is dropped: open it again first"):
        nights.do_overnight(fair.hub, fair.night, by=fair.ines, at=NOW)


def test_a_night_taken_out_leaves_its_jobs_at_home(owner, fair):
    fair.overnight()
    owner.press(f"/nights/{fair.night.pk}/delete/")
    fair.hub.refresh_from_db()
    assert fair.hub.night is None and Event.objects.filter(pk=fair.event.pk).exists()


@pytest.mark.parametrize("ticked", [False, True])
def test_a_car_that_does_not_come_after_all_has_its_jobs_at_home(owner, cast, fair, ticked):
    fair.overnight()
    if ticked:
        tap(item_of(check_lists.make(fair.entry, by=cast.owner, at=NOW), "belt-dates"), "tick", cast.owner)
    owner.press(f"/entries/{fair.entry.pk}/delete/", {"ran": "stayed"})
    fair.hub.refresh_from_db()
    assert fair.hub.night is None
    assert Entry.objects.get(pk=fair.entry.pk).withdrawn_at, "what was said of its running stays"

"""A car with everything on record is fit, in the same words everywhere; each thing undone, not."""

import uuid
from datetime import timedelta

import pytest

from builds.joints.models import Joint
from builds.readings.actions import readings
from builds.readings.models.age import ReadingAge
from builds.readings.models.reading import Reading
from builds.readings.models.target import Target
from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.models.check import CheckItem
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from garage.actions import gear as gear_actions
from garage.actions import shares
from garage.models import Gear
from tests.builds.gear.gear_kit import need, piece
from tests.builds.readings.reading_kit import limit, require, take
from tests.builds.verdict.moth_kit import tick_all
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory
from tests.pages import written

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def entry(cast):
    """Moth, entered, with every record as it must be."""
    car = VehicleFactory(garage=cast.garage, name="Moth", state="driveable")
    event = EventFactory(garage=cast.garage, name="Kiln Lane", gates_at=NOW + timedelta(days=3))
    entry = EntryFactory(event=event, vehicle=car)
    require(car, cast.owner, "toe_front")
    take(car, "toe_front", cast.owner)
    limit(car, "toe_front")
    piece(car)
    need(cast, car, "belts")
    check_lists.make(entry, by=cast.owner, at=NOW)
    tick_all(cast, NOW)
    return entry


def test_it_is_fit_and_every_page_and_the_sheet_say_so(entry, cast, owner):
    found = verdict_of(entry.vehicle, NOW)
    assert (found.state, found.reasons, found.not_recorded) == ("fit", (), "")
    _, token = shares.make(by=cast.owner, at=NOW, days=3, vehicle=entry.vehicle)
    pages = ("/cars/", f"/cars/{entry.vehicle_id}/", f"/events/{entry.event_id}/")
    for url in (*pages, f"/shared/{token}/", f"/paddock/{entry.event_id}/", "/"):
        text = owner.get(url).content.decode()
        assert "Fit to run" in text, url
        assert "Not fit" not in text and "Do not drive" not in text, url


def a_job(cast, car):
    jobs.add(car, by=cast.owner, at=NOW, title="New pads", work=(30, 60, 90), systems=["brakes"])


def an_arm(cast, car):
    """Finished, and then the toe is void."""
    job = jobs.add(car, by=cast.owner, at=NOW, title="Arm", work=(30, 60, 90), kinds=["steering_arm"])
    steps.start(job, by=cast.owner, at=NOW)
    steps.finish(job, by=cast.owner, at=NOW + timedelta(hours=1))


def struck_out(cast, car):
    readings.strike(Reading.objects.get(), by=cast.owner, at=NOW, because="wrong car")


def no_belts(cast, car):
    gear_actions.retire(Gear.objects.get(), because="cut", at=NOW)


def a_tick_taken_back(cast, car):
    checks.undo(CheckItem.objects.first(), by=cast.owner, at=NOW, key=uuid.uuid4())


def a_joint(cast, car):
    Joint.objects.create(vehicle=car, name="Wheel nuts", systems=["wheels"])


def on_stands(cast, car):
    car.state = "stands"
    car.save()


@pytest.mark.parametrize("undo", [a_job, an_arm, struck_out, no_belts, a_tick_taken_back, a_joint, on_stands])
def test_with_any_one_thing_undone_it_is_not_fit(entry, cast, undo):
    undo(cast, entry.vehicle)
    assert verdict_of(entry.vehicle, NOW + timedelta(hours=2)).state == "not_fit"


def no_limit(cast, car):
    Target.objects.filter(field="fl").delete()


def too_old(cast, car):
    ReadingAge.objects.create(garage=cast.garage, kind="toe_front", days=1)
    Reading.objects.update(at=NOW - timedelta(days=2))


def may_have_run(cast, car):
    """Over, and nobody has said whether it ran: its wheel torque was read before."""
    require(car, cast.owner, "toe_front", "wheel_torque")
    take(car, "wheel_torque", cast.owner, at=NOW - timedelta(hours=2))
    limit(car, "wheel_torque")
    assert verdict_of(car, NOW).state == "fit"
    EntryFactory(
        vehicle=car,
        event=EventFactory(garage=cast.garage, gates_at=NOW - timedelta(hours=9), ends_at=NOW - timedelta(hours=1)),
    )


@pytest.mark.parametrize("undo", [no_limit, too_old, may_have_run])
def test_with_any_one_thing_not_known_it_is_not_known_to_be_fit_and_says_why(entry, cast, owner, undo):
    undo(cast, entry.vehicle)
    found = verdict_of(entry.vehicle, NOW)
    assert (found.state, found.do_not_drive) == ("not_known", False)
    assert found.sentence == "Not known to be fit: 1 thing is not known"
    (reason,) = found.reasons
    for url in (f"/cars/{entry.vehicle_id}/", f"/events/{entry.event_id}/", f"/paddock/{entry.event_id}/"):
        page = owner.get(url).content.decode()
        assert found.sentence in page and "Fit to run" not in page, url
    assert reason.sentence in written(owner.get(f"/cars/{entry.vehicle_id}/").content.decode())

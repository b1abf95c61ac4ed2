"""What must never read "Fit to run": work half done, unsigned or forgotten by an edit."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions as joints
from builds.joints.facts import joint_lines
from builds.readings.facts.readings import readings_of
from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.models.check import CheckItem
from builds.shelf.actions import shelf
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.link import StationHold
from garage.actions.refused import Refused
from parts.actions.places import car_place
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import tick_all
from tests.factories import NOW, EntryFactory, EventFactory, HoldPointFactory, StationFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)


def add(car, by, title, *kinds, **more):
    more.setdefault("rank", "needed")
    return jobs.add(car, by=by, at=NOW - 5 * HOUR, title=title, work=(30, 60, 90), kinds=list(kinds), **more)


def standing(car, key, at):
    return readings_of(car.garage, [car], at)[car.pk].lines[key].state


def edited(job, **more):
    fields = {"title": job.title, "vehicle": job.vehicle_id, "systems": job.systems, "kinds": job.kinds}
    figures = {"likely": "60 min", "low": "30 min", "high": "90 min", "hands": "1", "weight": "1"}
    return {**fields, **figures, "rank": job.rank, "splits": "on", **more}


def test_half_done_brakes_do_not_go_away_to_another_car(entry, cast, helper):
    job = add(entry.vehicle, cast.owner, "Pads and hoses", "hydraulics_opened", systems=["brakes"], rank="")
    steps.start(job, by=cast.helper, at=NOW + HOUR)
    steps.finish(job, by=cast.helper, at=NOW + 2 * HOUR)
    steps.reopen(job, by=cast.helper, at=NOW + 3 * HOUR, reason="weeps")
    job.refresh_from_db()
    other = VehicleFactory(garage=cast.garage, name="Badger")
    helper.press(f"/jobs/{job.pk}/edit/", edited(job, vehicle=other.pk))
    tick_all(cast, NOW + 4 * HOUR)
    assert verdict_of(entry.vehicle, NOW + 5 * HOUR).state == "not_fit"


def test_what_a_job_did_is_not_unsaid_after_it_was_opened_again(entry, cast, helper):
    job = add(entry.vehicle, cast.owner, "New arm", "steering_arm", systems=["steering"], rank="")
    steps.start(job, by=cast.helper, at=NOW + HOUR)
    steps.finish(job, by=cast.helper, at=NOW + 2 * HOUR)
    steps.reopen(job, by=cast.helper, at=NOW + 3 * HOUR, reason="x")
    job.refresh_from_db()
    bare = {"kinds": [], "systems": [], "rank": "wanted", "lowered_because": "nothing"}
    helper.press(f"/jobs/{job.pk}/edit/", edited(job, **bare))
    tick_all(cast, NOW + 4 * HOUR)
    assert standing(entry.vehicle, "toe_front", NOW + 5 * HOUR) == "void"
    assert verdict_of(entry.vehicle, NOW + 5 * HOUR).state == "not_fit"


def test_a_day_that_nobody_answered_for_leaves_torque_and_levels_unknown(entry, cast, clock):
    """Unanswered from the event's end, as if the car had run."""
    car = entry.vehicle
    nuts = joints.add(car, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"], again_after_run=True)
    joints.mark(nuts, by=cast.helper, at=NOW, key=uuid.uuid4())
    joints.sign(nuts, by=cast.owner, at=NOW, key=uuid.uuid4())
    clock.at = at = entry.event.ends_at + HOUR
    later = EventFactory(garage=cast.garage, gates_at=entry.event.ends_at + timedelta(days=7))
    check_lists.make(EntryFactory(event=later, vehicle=car), by=cast.owner, at=at)
    tick_all(cast, at)
    assert verdict_of(car, at).state != "fit"


def test_wheels_that_came_off_for_the_pads_loosen_the_wheel_nuts(entry, cast):
    car = entry.vehicle
    nuts = joints.add(car, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"])
    joints.mark(nuts, by=cast.helper, at=NOW, key=uuid.uuid4())
    joints.sign(nuts, by=cast.owner, at=NOW, key=uuid.uuid4())
    job = add(car, cast.owner, "Pads, wheels off", "wheel_off", "friction_parts", systems=["brakes"], rank="")
    steps.start(job, by=cast.helper, at=NOW + HOUR)
    steps.finish(job, by=cast.helper, at=NOW + 2 * HOUR)
    (line,) = joint_lines(cast.garage, [car], NOW + 3 * HOUR)[car.pk]
    assert line.standing.state == "loose"


def test_new_pads_half_in_are_safety_work_by_what_is_done(entry, cast, helper):
    """The kind of work says brakes as plainly as the system does."""
    data = {"title": "New front pads", "vehicle": entry.vehicle_id, "likely": "1", "hands": "1", "weight": "1"}
    helper.press(f"/cars/{entry.vehicle_id}/jobs/add/", {**data, "kinds": ["friction_parts"]})
    job = entry.vehicle.jobs.get(title="New front pads")
    steps.start(job, by=cast.helper, at=NOW)
    steps.stop(job, by=cast.helper, at=NOW + HOUR)
    tick_all(cast, NOW + 2 * HOUR)
    assert verdict_of(entry.vehicle, NOW + 3 * HOUR).do_not_drive


@pytest.fixture
def dropped(entry, cast):
    """Work with hands on it and a hold point, dropped by the owner."""
    job = add(entry.vehicle, cast.helper, "Weld the boot floor")
    HoldPointFactory(job=job, what="Look at the welds")
    steps.start(job, by=cast.helper, at=NOW)
    with pytest.raises(Refused, match="nobody has signed “Look at the welds”: only the owner drops it"):
        steps.drop(job, by=cast.helper, at=NOW + HOUR, reason="no time")
    steps.drop(job, by=cast.owner, at=NOW + HOUR, reason="no time")
    return job


def test_an_open_hold_point_is_not_dropped_with_its_job(entry, dropped):
    said = verdict_of(entry.vehicle, NOW + 2 * HOUR)
    assert said.do_not_drive and said.state == "not_fit"
    assert [reason.sentence for reason in said.reasons] == [
        "Hold point not signed on “Weld the boot floor”: Look at the welds",
        "“Weld the boot floor” was begun and dropped half done: nobody has said that the car is as it was.",
    ]


def test_the_owner_says_that_the_car_is_as_it_was(entry, cast, dropped, helper, owner, clock):
    clock.at = NOW + 2 * HOUR
    address = f"/jobs/{dropped.pk}/whole/"
    assert helper.press(address, {"reason": "I put it back"}).status_code == 422
    assert owner.press(address, {"reason": "ok"}).status_code == 422
    assert verdict_of(entry.vehicle, NOW + 2 * HOUR).state == "not_fit"
    assert "Say why the car is as it was" in owner.get(f"/jobs/{dropped.pk}/").content.decode()
    assert "Say why the car is as it was" not in helper.get(f"/jobs/{dropped.pk}/").content.decode()
    assert owner.press(address, {"reason": "only the mat was lifted"}).status_code == 303
    tick_all(cast, NOW + 2 * HOUR)
    assert verdict_of(entry.vehicle, NOW + 2 * HOUR).state == "fit"
    page = owner.get(f"/jobs/{dropped.pk}/").content.decode()
    assert "The car is as it was: only the mat was lifted" in page and "Say why the car is as it was" not in page
    steps.reopen(dropped, by=cast.owner, at=NOW + 3 * HOUR, reason="again")
    dropped.refresh_from_db()
    steps.drop(dropped, by=cast.owner, at=NOW + 4 * HOUR, reason="no")
    assert verdict_of(entry.vehicle, NOW + 5 * HOUR).state == "not_fit"


def test_dropped_brakes_are_whole_by_the_owners_word(entry, cast):
    job = add(entry.vehicle, cast.owner, "Pads", systems=["brakes"], rank="")
    steps.start(job, by=cast.helper, at=NOW)
    steps.drop(job, by=cast.owner, at=NOW + HOUR, reason="no time")
    assert verdict_of(entry.vehicle, NOW + 2 * HOUR).do_not_drive
    with pytest.raises(Refused, match="Only the owner says that the car is as it was"):
        steps.whole(job, by=cast.helper, at=NOW + 2 * HOUR, reason="nothing was opened")
    steps.whole(job, by=cast.owner, at=NOW + 2 * HOUR, reason="nothing was opened")
    assert not verdict_of(entry.vehicle, NOW + 2 * HOUR).do_not_drive


def test_what_nobody_began_is_dropped_and_gone(entry, cast, owner):
    job = add(entry.vehicle, cast.helper, "Weld the boot floor")
    HoldPointFactory(job=job, what="Look at the welds")
    steps.drop(job, by=cast.helper, at=NOW, reason="no time")
    assert verdict_of(entry.vehicle, NOW + HOUR).state == "fit"
    assert "Say why the car is as it was" not in owner.get(f"/jobs/{job.pk}/").content.decode()


def test_a_list_of_which_all_is_left_out_says_so(entry, cast):
    for item in CheckItem.objects.all():
        checks.undo(item, by=cast.owner, at=NOW, key=uuid.uuid4())
        item.refresh_from_db()
        told = {"at": NOW, "key": uuid.uuid4(), "note": "no time"}
        with pytest.raises(Refused, match="Only the owner says that an item does not apply"):
            checks.take(item, "leave_out", by=cast.helper, **told)
    assert verdict_of(entry.vehicle, NOW + HOUR).state == "not_fit"
    items = list(CheckItem.objects.all())
    for item in items:
        checks.take(item, "leave_out", by=cast.owner, at=NOW, key=uuid.uuid4(), note="a display only")
    said = verdict_of(entry.vehicle, NOW + HOUR)
    assert said.sentence == f"Fit to run; {len(items)} items of its scrutineering list were left out"


def test_one_item_left_out_is_said_beside_what_stands_in_the_way(entry, cast, owner):
    first, second, *_ = CheckItem.objects.all()
    checks.take(first, "leave_out", by=cast.owner, at=NOW + HOUR, key=uuid.uuid4(), note="Has none")
    checks.undo(second, by=cast.owner, at=NOW, key=uuid.uuid4())
    assert verdict_of(entry.vehicle, NOW).besides == "1 item of its scrutineering list was left out."
    assert "1 item of its scrutineering list was left out." in owner.get(f"/cars/{entry.vehicle_id}/").content.decode()


def test_weighed_with_the_bars_on_and_nobody_aboard_is_no_weighing(entry, cast, owner):
    take(entry.vehicle, "corner_weights", cast.owner, at=NOW, bars="hooked", driver="empty", fuel_ml=0)
    said = [reason.sentence for reason in verdict_of(entry.vehicle, NOW + HOUR).reasons]
    note = "Not as raced: bars connected, nobody aboard, tank dry."
    assert f"Counts as a note only: Corner weights. {note}" in said
    assert note in owner.get(f"/cars/{entry.vehicle_id}/readings/corner_weights/").content.decode()


@pytest.mark.parametrize("odd", [{"bars": "hooked"}, {"driver": "empty"}, {"fuel_ml": 0}])
def test_one_thing_not_as_raced_is_enough(entry, cast, odd):
    take(entry.vehicle, "corner_weights", cast.owner, at=NOW + HOUR, **odd)
    assert verdict_of(entry.vehicle, NOW + 2 * HOUR).state == "not_fit"


@pytest.mark.parametrize("even", [{"bars": "none"}, {"driver": "ballast"}, {"fuel_ml": 1}])
def test_what_is_as_raced_stands(entry, cast, even):
    take(entry.vehicle, "corner_weights", cast.owner, at=NOW + HOUR, **even)
    assert verdict_of(entry.vehicle, NOW + 2 * HOUR).state == "fit"


def test_a_reading_of_a_stripped_car_is_kept_as_a_note(entry, cast, owner, clock):
    car, bay = entry.vehicle, StationFactory(garage=cast.garage, name="Bay", stands=True)
    off, on = (add(car, cast.owner, title, systems=["exhaust"]) for title in ("Arm off", "Arm on"))
    StationHold.objects.create(station=bay, first=off, last=on)
    address = f"/cars/{car.pk}/readings/corner_weights/add/"
    assert "is stripped until" not in owner.get(address).content.decode()
    steps.finish(off, by=cast.helper, at=NOW + HOUR)
    clock.at = NOW + 2 * HOUR
    assert "Moth is stripped until “Arm on” is done" in owner.get(address).content.decode()
    weighed = take(car, "corner_weights", cast.owner, at=NOW + 2 * HOUR)
    assert weighed.stripped
    assert not take(car, "brake_bleed", cast.owner, at=NOW + 2 * HOUR).stripped
    assert not take(car, "corner_weights", cast.owner, at=NOW + 2 * HOUR, taken_at=NOW).stripped
    steps.finish(on, by=cast.helper, at=NOW + 3 * HOUR)
    said = [reason.sentence for reason in verdict_of(car, NOW + 4 * HOUR).reasons]
    assert "Counts as a note only: Corner weights. The car was stripped or on stands when it was taken." in said
    assert not take(car, "corner_weights", cast.owner, at=NOW + 4 * HOUR).stripped


@pytest.mark.parametrize("system", ["engine", "gearbox", "fuel", "electrics", "seat"])
def test_a_whole_unit_pulled_and_put_back_moves_mass(entry, cast, system):
    car, place = entry.vehicle, PlaceFactory(garage=cast.garage)
    part = PartFactory(garage=cast.garage, name="Whole unit", single=True, systems=[system])
    ends = {"quantity": 1, "by": cast.owner}
    early = NOW - timedelta(days=20)
    shelf.carry_out(part, "receive", at=early, target=place, **ends)
    shelf.carry_out(part, "fit", at=early, source=place, car=car, all_along=True, **ends)
    move = shelf.carry_out(part, "pull", at=NOW + HOUR, source=car_place(car), **ends)
    shelf.carry_out(part, "fit", at=NOW + 2 * HOUR, source=move.target, car=car, **ends)
    assert standing(car, "corner_weights", NOW + 3 * HOUR) == "void"


@pytest.mark.parametrize("end", ["open", "dropped"])
def test_a_kerb_strike_written_down_was_a_kerb_strike_whatever_became_of_its_job(entry, cast, end):
    """Gear takes it from when it was written down; so must what was measured."""
    told = {"by": cast.helper, "title": "Hit the kerb at turn two", "work": (30, 60, 90), "kinds": ["crash"]}
    job = jobs.add(entry.vehicle, at=NOW + HOUR, rank="wanted", **told)
    if end == "dropped":
        steps.drop(job, by=cast.helper, at=NOW + 2 * HOUR, reason="looked straight")
    tick_all(cast, NOW + 2 * HOUR)
    assert standing(entry.vehicle, "toe_front", NOW + 3 * HOUR) == "void"
    assert verdict_of(entry.vehicle, NOW + 3 * HOUR).state == "not_fit"
    take(entry.vehicle, "ride_height", cast.owner, at=NOW + 3 * HOUR)
    assert standing(entry.vehicle, "ride_height", NOW + 3 * HOUR) == "stands"


def test_nothing_says_driveable_above_do_not_drive(entry, cast, owner):
    address = f"/cars/{entry.vehicle_id}/"
    assert "driveable" in owner.get(address).content.decode().partition('class="bay"')[0].partition("<h1")[2]
    job = add(entry.vehicle, cast.owner, "Pads", systems=["brakes"], rank="")
    steps.start(job, by=cast.helper, at=NOW)
    page = owner.get(address).content.decode()
    assert "Do not drive" in page
    assert "driveable" not in page.partition('class="bay"')[0].partition("<h1")[2]

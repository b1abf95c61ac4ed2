"""Gear that is bolted to a car and comes off, goes on, is replaced or gets another date."""

from datetime import date, timedelta

import pytest

from builds.gear.actions import pieces
from builds.gear.models import GearChange
from builds.joints import actions as joints
from builds.joints.facts import joint_lines
from builds.readings.facts.readings import readings_of
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from garage.models import Gear
from tests.builds.gear.gear_kit import FORM, piece
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import tick_all
from tests.factories import NOW, VehicleFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
END = NOW + 8 * HOUR


@pytest.fixture
def belts(cast, car):
    """On the car, their torque read and their bolts marked and signed."""
    take(car, "belt_torque", cast.owner)
    bolts = joints.add(car, name="Belt bolts", systems=["restraint"], opened_by=["seat_or_belt_moved"])
    joints.mark(bolts, by=cast.helper, at=NOW, key="0b1c7c40-0000-4000-8000-000000000001")
    joints.sign(bolts, by=cast.owner, at=NOW, key="0b1c7c40-0000-4000-8000-000000000002")
    return piece(car)


def torque(car, at=END):
    """How the reading and the joint stand."""
    (line,) = joint_lines(car.garage, [car], at)[car.pk]
    return readings_of(car.garage, [car], at)[car.pk].lines["belt_torque"].state, line.standing.state


def states(car):
    return {job.title: job.state for job in Job.objects.filter(vehicle=car, systems=["restraint"])}


def test_moved_to_another_car_and_back_they_are_bolted_in_anew(cast, car, belts):
    wasp = VehicleFactory(garage=cast.garage, name="Wasp")
    pieces.change_piece(belts, by=cast.helper, at=NOW + HOUR, vehicle=wasp)
    assert states(car) == {"Fit: Belts": "waiting"} and states(wasp) == {"Fitted: Belts": "done"}
    said = verdict_of(car, END)
    assert said.do_not_drive and said.reasons[0].sentence == "Belts came off, and “Fit: Belts” is not done."
    assert torque(car) == ("void", "loose")
    pieces.change_piece(belts, by=cast.helper, at=NOW + 2 * HOUR, vehicle=car)
    assert states(car) == {"Fit: Belts": "done"} and states(wasp)["Fit: Belts"] == "waiting"
    tick_all(cast, NOW + 3 * HOUR)
    assert verdict_of(car, END).do_not_drive and torque(car) == ("void", "loose")
    assert [change.words for change in GearChange.objects.all()] == [
        "Where it belongs: Wasp, now Moth",
        "Where it belongs: Moth, now Wasp",
    ]


def test_an_extinguisher_that_is_off_is_told_so_until_hands_are_on_the_job_that_fits_one(cast, car):
    bottle, wasp = Gear.objects.get(kind="extinguisher"), VehicleFactory(garage=cast.garage, name="Wasp")
    pieces.change_piece(bottle, by=cast.helper, at=NOW, vehicle=wasp)
    job = Job.objects.get(title="Fit: Extinguisher")
    first = verdict_of(car, END).reasons[0]
    assert first.sentence == "Extinguisher came off, and “Fit: Extinguisher” is not done."
    assert first.clears == "Fit one and have it signed."
    steps.start(job, by=cast.helper, at=NOW + HOUR)
    steps.stop(job, by=cast.helper, at=NOW + 2 * HOUR)
    assert verdict_of(car, END).reasons[0].sentence.startswith("“Fit: Extinguisher” was put down half done")


def test_retired_and_replaced_on_the_gear_page_they_want_their_look(cast, car, belts, helper, clock):
    clock.at = NOW + HOUR
    page = helper.press(f"/gear/{belts.pk}/retire/", {"because": "cut"}, follow=True).content.decode()
    assert "“Fit: Belts” is work on Moth" in page
    told = {**FORM, "name": "Other belts", "meaning": "until", "printed": "2030-12-31", "standard": ""}
    page = helper.press("/gear/add/", {**told, "whose": f"car-{car.pk}"}, follow=True).content.decode()
    assert "“Fit: Belts” is work on Moth: somebody else looks at it." in page
    assert states(car) == {"Fit: Belts": "done"} and torque(car) == ("void", "loose")
    pieces.use_again(belts, by=cast.helper, at=NOW + 2 * HOUR)
    assert states(car)["Fitted: Belts"] == "done"
    changes = helper.get(f"/gear/{belts.pk}/").content.decode()
    assert "Out of use: cut" in changes and "In use again" in changes


def test_entered_before_the_old_ones_are_out_of_use_they_were_work_too(cast, car, belts):
    _, work = pieces.add_piece(
        cast.garage, by=cast.helper, at=NOW + HOUR, name="New", kind="belts", vehicle=car, meaning="until",
        printed_on=date(2030, 1, 1), precision="day",
    )  # fmt: skip
    assert work == [] and torque(car) == ("stands", "stands")
    pieces.retire_piece(belts, because="old", by=cast.helper, at=NOW + HOUR)
    assert states(car) == {"Taken off: Belts": "done"} and torque(car) == ("void", "loose")


def test_dropped_the_job_that_fits_others_does_not_let_them_on_unseen(cast, car, belts):
    pieces.retire_piece(belts, because="cut", by=cast.helper, at=NOW + HOUR)
    steps.drop(Job.objects.get(title="Fit: Belts"), by=cast.owner, at=NOW + 2 * HOUR, reason="never mind")
    assert verdict_of(car, END).do_not_drive
    pieces.add_piece(
        cast.garage, by=cast.helper, at=NOW + 3 * HOUR, name="New", kind="belts", vehicle=car, meaning="until",
        printed_on=date(2030, 1, 1), precision="day",
    )  # fmt: skip
    assert states(car)["Fitted: New"] == "done"


def test_work_that_is_in_hand_tells_of_it_itself_and_the_owner_of_what_was_only_written_down_wrong(cast, car, belts):
    wasp = VehicleFactory(garage=cast.garage, name="Wasp")
    told = {"by": cast.helper, "at": NOW + HOUR}
    with pytest.raises(Refused, match="Only the owner says that it was so already"):
        pieces.change_piece(belts, vehicle=wasp, all_along=True, **told)
    pieces.change_piece(belts, vehicle=wasp, all_along=True, by=cast.owner, at=NOW + HOUR)
    pieces.change_piece(belts, vehicle=car, all_along=True, by=cast.owner, at=NOW + HOUR)
    assert states(car) == states(wasp) == {} and torque(car) == ("stands", "stands")
    job = jobs.add(car, title="New belts", work=(1, 2, 3), systems=["restraint"], kinds=["seat_or_belt_moved"], **told)
    steps.start(job, **told)
    pieces.retire_piece(belts, because="cut", **told)
    pieces.use_again(belts, **told)
    assert states(car) == {"New belts": "in_hand"}


def test_only_the_owner_says_that_what_runs_out_is_good_for_longer(cast, car, helper, owner, clock):
    clock.at = NOW + HOUR
    old = piece(car, name="Old belts", last=date(2027, 1, 1))
    edit = {**FORM, "name": "Old belts", "standard": "", "label": "", "meaning": "until", "whose": f"car-{car.pk}"}
    for printed, said in (("2036-12-31", "good for longer"), ("", "good for longer"), ("2026-12-01", "")):
        page = helper.press(f"/gear/{old.pk}/edit/", {**edit, "printed": printed})
        assert (page.status_code == 422) == bool(said) and said in page.content.decode(), printed
    assert verdict_of(car, END).state == "not_fit"
    assert owner.press(f"/gear/{old.pk}/edit/", {**edit, "printed": "2036-12-31"}).status_code == 303
    assert verdict_of(car, END).state == "fit"
    page = helper.get(f"/gear/{old.pk}/").content.decode()
    assert "Date: not valid after 1 December 2026, now not valid after 31 December 2036" in page and "Ines" in page

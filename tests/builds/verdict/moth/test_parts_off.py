"""What came off a car is off it, whatever becomes of the job that gives it back."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions as joints
from builds.joints.facts import joint_lines
from builds.readings.facts.readings import readings_of
from builds.shelf.actions import shelf
from builds.shelf.pages.owed import owed_lines
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from parts.actions import parts
from parts.actions.places import car_place
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import KINDS, sign_bleed, tick_all
from tests.factories import NOW
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
END = NOW + 8 * HOUR


@pytest.fixture
def rack(cast):
    return PlaceFactory(garage=cast.garage, name="Rack A")


def put_on(cast, car, rack, name, *systems, **more):
    """A part that was on the car all along."""
    more = {"single": True, "condition": "good", **more}
    part = PartFactory(garage=cast.garage, name=name, systems=list(systems), **more)
    told = {"quantity": 1, "by": cast.owner, "at": NOW - HOUR}
    shelf.carry_out(part, "receive", target=rack, **told)
    shelf.carry_out(part, "fit", source=rack, car=car, all_along=True, **told)
    return part


def take_off(cast, car, rack, part):
    told = {"quantity": 1, "by": cast.helper, "at": NOW + HOUR}
    return shelf.carry_out(part, "take_off", source=car_place(car), target=rack, **told)


def all_read(cast, car, at=NOW + 6 * HOUR):
    for kind in KINDS:
        take(car, kind, cast.owner, at=at)
    sign_bleed(cast.helper, at)
    tick_all(cast, at)


def test_what_somebody_gets_hurt_by_stops_the_car_the_rest_does_not(cast, car, rack):
    hurt = {
        "Front caliper left": ["brakes"],
        "Lower arm left": [],
        "Front wheel": ["wheels"],
        "Harness": [],
        "Fuel pump": [],
    }
    for name, systems in {"Cup holder": ["body"], "Mats": []}.items():
        take_off(cast, car, rack, put_on(cast, car, rack, name, *systems))
    said = verdict_of(car, END)
    assert (said.state, said.do_not_drive) == ("not_fit", False)
    for name, systems in hurt.items():
        take_off(cast, car, rack, put_on(cast, car, rack, name, *systems))
    stops = {reason.sentence for reason in verdict_of(car, END).do_not_drive_reasons}
    assert stops == {f"Open safety job: “Owed: {name}”" for name in hurt}


def test_dropping_its_job_does_not_bring_it_back_and_the_owner_says_that_the_car_does_without(
    cast, car, rack, owner, helper, clock
):
    clock.at = NOW + 7 * HOUR
    part = put_on(cast, car, rack, "Front caliper left", "brakes")
    take_off(cast, car, rack, part)
    job = Job.objects.get(title="Owed: Front caliper left")
    with pytest.raises(Refused, match="It ends with the part"):
        steps.finish(job, by=cast.helper, at=NOW + 2 * HOUR)
    steps.drop(job, by=cast.owner, at=NOW + 2 * HOUR, reason="never mind")
    all_read(cast, car)
    said = verdict_of(car, END)
    sentence = "Front caliper left came off and is not back on: “Owed: Front caliper left” was dropped."
    assert said.do_not_drive and said.reasons[0].sentence == sentence
    assert all(reason.sentence.startswith("Not ticked") for reason in said.reasons[1:])
    assert [line.part for line in owed_lines(cast.garage, END)] == [part]
    whole = f"/jobs/{job.pk}/whole/"
    assert "Say why the car does without it" in owner.get(f"/jobs/{job.pk}/").content.decode()
    assert "Moth does without" in owner.get(whole).content.decode()
    assert helper.press(whole, {"reason": "it runs fine"}).status_code == 422
    owner.press(whole, {"reason": "a display only, it is pushed"})
    said = verdict_of(car, END)
    assert said.sentence == "Fit to run; it runs without Front caliper left, by the owner's word"
    why = "Front caliper left came off and is not back on: a display only, it is pushed"
    assert said.without == (why,)
    assert why in owner.get(f"/cars/{car.pk}/").content.decode()
    assert owed_lines(cast.garage, END) == []


def test_a_wheel_off_opens_its_nuts_and_takes_their_tick_until_it_is_back(cast, car, rack):
    part = put_on(cast, car, rack, "Front wheel", "wheels")
    nuts = joints.add(car, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"])
    joints.mark(nuts, by=cast.helper, at=NOW, key=uuid.uuid4())
    joints.sign(nuts, by=cast.owner, at=NOW, key=uuid.uuid4())
    take_off(cast, car, rack, part)
    away = "“Owed: Front wheel” is not done: a part is off the car."
    (line,) = joint_lines(cast.garage, [car], END)[car.pk]
    assert (line.standing.state, line.standing.words) == ("loose", away)
    said = [reason.sentence for reason in verdict_of(car, END).reasons]
    assert f"Not ticked: All wheel nuts or bolts there, torqued by hand and striped. Touched since: {away}" in said
    job = Job.objects.get(title="Owed: Front wheel")
    steps.drop(job, by=cast.owner, at=NOW + 2 * HOUR, reason="never mind")
    steps.whole(job, by=cast.owner, at=NOW + 2 * HOUR, reason="another wheel is on it")
    (line,) = joint_lines(cast.garage, [car], END)[car.pk]
    assert line.standing.words.startswith("Opened by “Owed: Front wheel”")
    joints.mark(nuts, by=cast.helper, at=NOW + 3 * HOUR, key=uuid.uuid4())
    (line,) = joint_lines(cast.garage, [car], END)[car.pk]
    assert line.standing.state == "unsigned"


def test_fitted_back_after_its_job_was_dropped_it_is_paid_and_wants_its_look(cast, car, rack):
    part = put_on(cast, car, rack, "Front caliper left", "brakes")
    take_off(cast, car, rack, part)
    job = Job.objects.get(title="Owed: Front caliper left")
    steps.drop(job, by=cast.owner, at=NOW + 2 * HOUR, reason="never mind")
    shelf.carry_out(part, "fit", source=rack, car=car, quantity=1, by=cast.helper, at=NOW + 3 * HOUR)
    job.refresh_from_db()
    assert (job.state, Job.objects.filter(title__startswith="Fitted").exists()) == ("done", False)
    all_read(cast, car)
    assert verdict_of(car, END).do_not_drive
    steps.sign(job, by=cast.owner, at=NOW + 7 * HOUR)
    assert verdict_of(car, END).state == "fit"


def test_what_would_not_be_fitted_so_does_not_stay_on_unsaid(cast, car, rack, owner, helper, clock):
    part = put_on(cast, car, rack, "Front caliper left", "brakes")
    put_on(cast, car, rack, "Lower arm left", condition="good", note="")
    clock.at = NOW + HOUR
    page = f"/parts/{part.pk}/edit/"
    edit = {"name": part.name, "single": "on", "systems": ["brakes"], "unit": "piece"}
    for condition, words, stops in (
        ("scrap", "is on it, and is scrap", True),
        ("repair", "is on it, and is to be repaired", True),
        ("unknown", "is on it, and nobody knows its history", False),
    ):
        owner.press(page, {**edit, "condition": "good"})
        assert verdict_of(car, END).state == "fit"
        helper.press(page, {**edit, "condition": condition})
        said = verdict_of(car, END)
        assert [reason.sentence for reason in said.reasons] == [
            f"Front caliper left {words}: Tove said so on 2 March 2027."
        ]
        assert (said.do_not_drive, said.state) == (stops, "not_fit" if stops else "not_known")
    assert f'href="/parts/{part.pk}/"' in owner.get(f"/cars/{car.pk}/").content.decode()
    refused = helper.press(page, {**edit, "condition": "good"})
    assert "Only the owner says that Front caliper left is good again." in refused.content.decode()
    assert helper.press(page, {**edit, "condition": "scrap"}).status_code == 303


def test_what_hurts_nobody_stops_no_car_by_its_condition(cast, car, rack):
    mats, cup = put_on(cast, car, rack, "Mats"), put_on(cast, car, rack, "Cup holder", "body")
    told = {"by": cast.helper, "at": NOW + HOUR}
    parts.change(mats, condition="unknown", **told)
    assert verdict_of(car, END).state == "fit"
    parts.change(cup, condition="scrap", **told)
    said = verdict_of(car, END)
    assert (said.state, said.do_not_drive) == ("not_fit", False)
    parts.change(cup, condition="good", **told)
    assert verdict_of(car, END).state == "fit"


def test_taken_off_for_a_job_of_its_own_it_is_begun_or_owed(cast, car, rack):
    caliper = put_on(cast, car, rack, "Front caliper left", "brakes")
    arm = put_on(cast, car, rack, "Lower arm left", "suspension")
    told = {"by": cast.helper, "at": NOW + HOUR}
    overhaul = jobs.add(car, title="Overhaul the caliper", work=(1, 2, 3), systems=["brakes"], **told)
    wash = jobs.add(car, title="Wash the mats", work=(1, 2, 3), systems=["body"], rank="wanted", **told)
    ends = {"source": car_place(car), "target": rack, "quantity": 1}
    shelf.carry_out(caliper, "take_off", job=overhaul, **ends, **told)
    shelf.carry_out(arm, "take_off", job=wash, **ends, **told)
    assert [line.part for line in owed_lines(cast.garage, END)] == [arm]
    overhaul.refresh_from_db()
    assert overhaul.state == "waiting"
    steps.drop(overhaul, by=cast.owner, at=NOW + 2 * HOUR, reason="never mind")
    said = {reason.sentence for reason in verdict_of(car, END).do_not_drive_reasons}
    assert said == {
        "“Overhaul the caliper” was begun and dropped: nobody signed that the car is whole again.",
        "Open safety job: “Owed: Lower arm left”",
    }
    assert readings_of(car.garage, [car], END)[car.pk].lines["brake_bleed"].state == "void"


def test_a_mirror_does_not_give_back_a_caliper(cast, car, rack):
    caliper = put_on(cast, car, rack, "Front caliper left", "brakes")
    take_off(cast, car, rack, caliper)
    job = Job.objects.get(title="Owed: Front caliper left")
    mirror, other = (PartFactory(garage=cast.garage, name=name, condition="good") for name in ("Mirror", "Caliper"))
    for part in (mirror, other):
        shelf.carry_out(part, "receive", target=rack, quantity=1, by=cast.owner, at=NOW)
    ends = {"source": rack, "car": car, "quantity": 1, "job": job, "by": cast.helper, "at": NOW + 2 * HOUR}
    with pytest.raises(Refused, match="Mirror does not stand in for Front caliper left") as refused:
        shelf.carry_out(mirror, "fit", **ends)
    assert refused.value.field == "job"
    shelf.carry_out(other, "fit", **ends)
    job.refresh_from_db()
    assert job.state == "done"


def test_a_fitting_that_is_undone_was_work_until_then(cast, car, rack):
    part = PartFactory(garage=cast.garage, name="Front caliper left", systems=["brakes"], single=True, condition="good")
    shelf.carry_out(part, "receive", target=rack, quantity=1, by=cast.owner, at=NOW)
    move = shelf.carry_out(part, "fit", source=rack, car=car, quantity=1, by=cast.helper, at=NOW + HOUR)
    all_read(cast, car, at=NOW + 2 * HOUR)
    steps.sign(Job.objects.get(title="Fitted: Front caliper left"), by=cast.owner, at=NOW + 2 * HOUR)
    assert verdict_of(car, NOW + 2 * HOUR).state == "fit"
    shelf.undo(move, by=cast.helper, at=NOW + 3 * HOUR)
    assert readings_of(car.garage, [car], END)[car.pk].lines["brake_bleed"].state == "void"
    assert verdict_of(car, END).do_not_drive

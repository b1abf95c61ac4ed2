"""On which cars a helper works and from which he pulls parts: said on People, refused in actions, hidden in pages."""

import uuid

import pytest

from builds.gear.actions.pieces import add_piece, change_piece
from builds.joints import actions as joints
from builds.joints.models import Joint
from builds.plan.facts.problem import build_problem
from builds.planner.check import faults
from builds.planner.search import plan as planned
from builds.readings.actions import readings
from builds.recipes.actions import putting
from builds.remedies.deeds.defer import DeferDeed
from builds.remedies.deeds.part import PartDeed
from builds.remedies.facts.deed_rows import DeedRows
from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.models.check import CheckItem
from builds.shelf.actions import shelf
from builds.steps.actions import jobs, steps
from builds.sums import actions as sums
from builds.work.models.job import Job
from builds.work.models.link import StationHold
from garage.actions import people, photos
from garage.actions.people import CarLimits
from garage.actions.refused import Refused
from garage.models import Membership, VehiclePhoto
from parts.actions.places import car_place, house_place
from parts.models import Move
from tests.factories import (
    NOW,
    EntryFactory,
    JobFactory,
    MemberHoursFactory,
    NeedFactory,
    SpanFactory,
    StationFactory,
    VehicleFactory,
)
from tests.pages import words
from tests.parts.factories import PartFactory, PlaceFactory
from tests.pictures import jpeg

OFF = "Tove does not work on Moth: the owner says who does, on the page of each person."
NOT_PULLED = "Tove pulls no parts from Moth: the owner says who does, on the page of each person."


@pytest.fixture
def cars(cast, now):
    """Tove works on Heron alone, and pulls parts from no car."""
    heron, moth = (VehicleFactory(garage=cast.garage, name=name) for name in ("Heron", "Moth"))
    person = cast.helper.person
    identity = {"name": person.name, "surname": person.surname, "email": person.email}
    people.change(
        cast.helper, role="helper", skills=(), works=True, may_sign=True,
        cars=CarLimits(every_car=False, cars=[heron], every_donor=False), **identity,
    )  # fmt: skip
    return heron, moth


@pytest.fixture
def tove(cast, cars):
    return Membership.objects.get(pk=cast.helper.pk)


def test_every_action_on_a_car_that_is_not_his_is_refused_in_one_sentence(tove, cast, cars):
    heron, moth = cars
    job = JobFactory(vehicle=moth)
    joint = Joint.objects.create(vehicle=moth, name="Wheel nuts", systems=["wheels"])
    entry = EntryFactory(event__garage=cast.garage, vehicle=moth)
    check_lists.make(entry, by=cast.owner, at=NOW)
    at = {"by": tove, "at": NOW}
    deeds = {
        "write a job": lambda: jobs.add(moth, title="Look", work=(1, 2, 3), **at),
        "start": lambda: steps.start(job, **at),
        "put down": lambda: steps.stop(job, **at),
        "finish": lambda: steps.finish(job, kinds=[], **at),
        "hold": lambda: steps.hold(job, reason="later", **at),
        "drop": lambda: steps.drop(job, reason="not wanted", **at),
        "reopen": lambda: steps.reopen(job, reason="again", **at),
        "mark": lambda: joints.mark(joint, key=uuid.uuid4(), torque_mnm=98_000, **at),
        "measure": lambda: readings.take(moth, None, {}, **at),
        "tick": lambda: checks.take(CheckItem.objects.first(), "tick", key=uuid.uuid4(), **at),
        "put a recipe": lambda: putting.put(None, moth, **at),
        "keep a sum": lambda: sums.keep(moth, None, {}, **at),
    }  # fmt: skip
    for name, deed in deeds.items():
        with pytest.raises(Refused) as refused:
            deed()
        assert str(refused.value) == OFF, name
    steps.start(JobFactory(vehicle=heron), **at)
    with pytest.raises(Refused, match="Tove does not work on Moth"):  # nor does the owner put him on it
        steps.start(job, by=cast.owner, at=NOW, crew=[tove])
    steps.start(job, by=cast.owner, at=NOW)


def test_he_looks_at_and_signs_what_others_did_on_every_car(tove, helper, cast, cars):
    joint = Joint.objects.create(vehicle=cars[1], name="Wheel nuts", systems=["wheels"])
    mark = joints.mark(joint, by=cast.owner, at=NOW, key=uuid.uuid4(), torque_mnm=98_000)
    assert helper.press(f"/joints/{joint.pk}/sign/").status_code == 303
    assert mark.signed_by.by == tove


def test_parts_off_a_car_that_he_may_not_pull_from_stay_there(tove, cast, cars):
    heron, moth = cars
    part, shelf_a = PartFactory(garage=cast.garage, name="Alternator"), PlaceFactory(garage=cast.garage)
    bench = house_place(cast.garage, "bench")
    supplier = house_place(cast.garage, "supplier")
    for car in cars:
        shelf.carry(part, "receive", 2, supplier, shelf_a, by=cast.owner, at=NOW)
        shelf.carry(part, "fit", 2, shelf_a, car_place(car), by=cast.owner, at=NOW)
    at = {"by": tove, "at": NOW}
    for car in cars:
        with pytest.raises(Refused, match=f"Tove pulls no parts from {car}"):
            shelf.carry(part, "pull", 1, car_place(car), bench, **at)
    with pytest.raises(Refused, match="Tove does not work on Moth"):
        shelf.carry(part, "pull", 1, car_place(moth), bench, job=JobFactory(vehicle=moth), **at)
    shelf.carry(part, "pull", 1, car_place(heron), bench, job=JobFactory(vehicle=heron), **at)
    with pytest.raises(Refused, match="Tove does not work on Moth"):
        shelf.carry(part, "fit", 1, bench, car_place(moth), **at)

    Membership.objects.get(pk=tove.pk).donors.add(moth)
    again = Membership.objects.get(pk=tove.pk)
    pulled = shelf.carry(part, "pull", 1, car_place(moth), bench, by=again, at=NOW)
    assert Job.objects.filter(vehicle=moth, title__startswith="Owed").exists()
    with pytest.raises(Refused, match="Tove does not work on Moth"):
        shelf.undo(Move.objects.filter(verb="fit", target=car_place(moth)).first(), by=again, at=NOW)
    shelf.undo(pulled, by=again, at=NOW)


def test_the_pages_offer_no_work_there_and_say_why_it_is_refused(helper, cast, cars):
    heron, moth = cars
    job = JobFactory(vehicle=moth, title="Fit the arm")
    assert f"/jobs/{job.pk}/start/" not in helper.get(f"/jobs/{job.pk}/").content.decode()
    for path in (f"/cars/{moth.pk}/jobs/add/", f"/jobs/{job.pk}/edit/", f"/cars/{moth.pk}/joints/add/"):
        answer = helper.get(path)
        assert (answer.status_code, OFF in words(answer.content.decode())) == (403, True), path
    mine = JobFactory(vehicle=heron)
    assert f"/jobs/{mine.pk}/start/" in helper.get(f"/jobs/{mine.pk}/").content.decode()
    begun = [JobFactory(vehicle=car, state="in_hand") for car in (moth, heron)]
    for one in begun:
        SpanFactory(job=one, until_at=None, crew=[cast.owner], by=cast.owner)
    tonight = helper.get("/").content.decode()
    assert [f"/jobs/{one.pk}/stop/" in tonight for one in begun] == [False, True]
    assert [f"/jobs/{one.pk}/finish/" in tonight for one in begun] == [False, True]
    started = helper.press(f"/jobs/{job.pk}/start/", {"stood": "open"})
    assert started.status_code == 403
    entry = EntryFactory(event__garage=cast.garage, vehicle=moth)
    EntryFactory(event=entry.event, vehicle=heron)
    day = helper.get(f"/paddock/{entry.event_id}/").content.decode()
    assert day.count('data-item="press-') == 1
    assert day.count('data-item="note-') == 2


def offered(form, name):
    """What a form lets one choose."""
    return sorted(str(row) for row in form.fields[name].queryset)


def test_forms_offer_only_the_cars_and_jobs_that_are_his(helper, cast, cars):
    heron, moth = cars
    jobs_on = {car: JobFactory(vehicle=car, title=f"Look at {car}") for car in cars}
    part, shelf_a = PartFactory(garage=cast.garage, name="Alternator"), PlaceFactory(garage=cast.garage)
    supplier = house_place(cast.garage, "supplier")
    for car in cars:
        shelf.carry(part, "receive", 2, supplier, shelf_a, by=cast.owner, at=NOW)
        shelf.carry(part, "fit", 1, shelf_a, car_place(car), by=cast.owner, at=NOW)
    fit, pull, take_off = (
        helper.get(f"/parts/{part.pk}/move/{verb}/").context["form"] for verb in ("fit", "pull", "take_off")
    )
    assert offered(fit, "car") == ["Heron"] and offered(fit, "job") == ["Look at Heron"]
    assert "Look at Moth" in offered(pull, "job")  # off the shelf he fetches it for anybody
    assert "Moth" not in offered(pull, "source") and "Heron" in offered(take_off, "source")
    assert offered(helper.get(f"/parts/{part.pk}/want/").context["form"], "job") == ["Look at Heron"]
    sent = {"job": jobs_on[moth].pk, "quantity": 1}
    assert helper.press(f"/parts/{part.pk}/want/", sent).status_code == 422
    for path in (f"/cars/{heron.pk}/jobs/add/", f"/jobs/{jobs_on[heron].pk}/edit/", "/recipes/brake-overhaul/put/"):
        assert offered(helper.get(path).context["form"], "vehicle") == ["Heron"], path
    belongs = helper.get("/gear/add/").context["form"].fields["whose"].choices
    assert "Heron" in dict(belongs).values() and "Moth" not in dict(belongs).values()


def test_photos_and_kept_places_of_a_car_that_is_not_his_stay_as_they_are(helper, tove, cast, cars):
    heron, moth = cars
    for car, status in ((heron, 303), (moth, 403)):
        taken = photos.add(VehiclePhoto, car, photos.keep(jpeg()), by=tove, at=NOW)
        page = helper.get(f"/photos/{taken.pk}/").content.decode()
        assert (f"/photos/{taken.pk}/edit/" in page) == (status == 303)
        assert helper.press(f"/photos/{taken.pk}/edit/", {"caption": "The arm"}).status_code == status
        assert helper.press(f"/photos/{taken.pk}/delete/").status_code == status
        first, last = JobFactory(vehicle=car), JobFactory(vehicle=car)
        kept = StationHold.objects.create(station=StationFactory(garage=cast.garage), first=first, last=last)
        assert helper.press(f"/kept/{kept.pk}/delete/").status_code == status


def test_gear_of_his_goes_onto_no_car_that_is_not(tove, cast, cars):
    with pytest.raises(Refused, match="Tove does not work on Moth"):
        add_piece(cast.garage, by=tove, at=NOW, kind="extinguisher", name="Bottle", vehicle=cars[1])
    mine, _ = add_piece(cast.garage, by=tove, at=NOW, kind="extinguisher", name="Bottle", vehicle=cars[0])
    with pytest.raises(Refused, match="Tove does not work on Moth"):
        change_piece(mine, by=tove, at=NOW, vehicle=cars[1])


def test_nor_is_work_of_another_car_put_off_by_him_or_its_parts_moved(tove, cast, cars):
    job, rows = JobFactory(vehicle=cars[1], rank="wanted"), DeedRows(cast.garage)
    need = NeedFactory(job=job)
    late = EntryFactory(event__garage=cast.garage, vehicle=cars[0])
    for deed in (DeferDeed(late.pk, (job.pk,)), PartDeed(need.pk, NOW.date())):
        assert deed.refusal(rows, tove) == OFF
        assert deed.refusal(rows, cast.owner) is None


def test_the_owner_ticks_it_on_people_and_people_tells(owner, helper, cast, now):
    heron, _ = (VehicleFactory(garage=cast.garage, name=name) for name in ("Heron", "Moth"))
    VehicleFactory(name="Of another garage")
    path = f"/people/{cast.helper.pk}/"
    page = owner.get(f"{path}edit/").content.decode()
    assert "Works only on some cars" in page and "Of another garage" not in page
    told = {"name": "Tove", "role": "helper", "works": "on"}
    owner.press(f"{path}edit/", told)
    assert "Works only" not in words(owner.get(path).content.decode())
    wrong = owner.press(f"{path}edit/", {**told, "cars": [heron.pk]})
    assert wrong.status_code == 422 and "Tick “Works only on some cars” as well" in wrong.content.decode()
    owner.press(f"{path}edit/", {**told, "some_cars": "on", "cars": [heron.pk], "some_donors": "on"})
    said = words(helper.get(path).content.decode())
    assert "Works only on Heron." in said and "Pulls parts from no car." in said
    assert "Works only on Heron." in words(helper.get("/people/").content.decode())
    assert helper.press(f"{path}edit/", told).status_code == 403
    owner.press(f"{path}edit/", told)
    assert Membership.objects.get(pk=cast.helper.pk).only_cars is None


def test_the_plan_gives_him_nothing_on_a_car_that_he_does_not_work_on(tove, cast, cars):
    heron, moth = cars
    for weekday in range(7):
        MemberHoursFactory(member=cast.helper, weekday=weekday, from_minute=0, until_minute=1440)
    on = {car: JobFactory(vehicle=car, likely_minutes=60) for car in cars}
    problem, _ = build_problem(cast.garage, NOW)
    plan = planned(problem, seconds=0)
    placed = {place.id: place for place in plan.placed}
    assert f"job-{on[heron].pk}" in placed and f"job-{on[moth].pk}" not in placed
    assert faults(problem, plan) == []
    everybody = Membership.objects.in_garage(cast.garage).active().working().count()
    many = JobFactory(vehicle=moth, hands=everybody, made_by=cast.owner)
    said = build_problem(cast.garage, NOW)[1].refused[f"job-{many.pk}"]
    assert said.endswith("people work on this car: say on People who else does, or that fewer do it.")

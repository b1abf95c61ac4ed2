"""Cars: hung on the board, changed, gone and back; lengths in the garage's units."""

import pytest

from builds.readings.engine.required import SENSIBLE
from builds.readings.models.target import RequiredReadings, Target
from garage.models import Vehicle
from tests.conftest import queries
from tests.factories import NOW, EntryFactory, JobFactory, SpanFactory, VehicleFactory

FORM = {"name": "Heron", "tape": "green", "state": "driveable", "what": "coupe"}


def test_added_with_lengths_in_millimetres_and_a_decimal_comma(owner, cast, now):
    answer = owner.press("/cars/add/", {**FORM, "wheelbase_um": "2575,5"})
    heron = Vehicle.objects.get(garage=cast.garage)
    assert answer["Location"] == f"/cars/{heron.pk}/"
    assert heron.wheelbase_um == 2_575_500
    assert "2575.5 mm" in owner.get(f"/cars/{heron.pk}/?tab=papers").content.decode()


def test_an_imperial_garage_types_inches(owner, cast, now):
    cast.garage.units = "imperial"
    cast.garage.save()
    owner.press("/cars/add/", {**FORM, "wheelbase_um": "101 3/8"})
    heron = Vehicle.objects.get(garage=cast.garage)
    assert heron.wheelbase_um == 2_574_925
    assert "101.38 in" in owner.get(f"/cars/{heron.pk}/?tab=papers").content.decode()


def test_each_new_car_is_offered_a_tape_that_no_other_has(owner, cast, now):
    VehicleFactory(garage=cast.garage, name="Badger", tape="green")
    VehicleFactory(garage=cast.garage, name="Gone", tape="orange", gone_at=NOW)
    assert owner.get("/cars/add/").context["form"]["tape"].value() == "orange"
    for at, tape in enumerate(Vehicle.Tape.values):
        VehicleFactory(garage=cast.garage, name=f"Car {at}", tape=tape)
    assert owner.get("/cars/add/").context["form"]["tape"].value() == "orange"


def test_a_new_car_takes_the_usual_readings_with_one_tick(owner, cast, now):
    owner.press("/cars/add/", {**FORM, "usual": "on"})
    heron = Vehicle.objects.get(garage=cast.garage)
    assert RequiredReadings.objects.get(vehicle=heron).kinds == list(SENSIBLE)
    assert Target.objects.on(heron).of("ride_height").exists()
    assert "usual" not in owner.get(f"/cars/{heron.pk}/edit/").context["form"].fields


@pytest.mark.parametrize(
    "field, typed",
    [
        ("name", "x" * 10_000),
        ("name", ""),
        ("tape", "tartan"),
        ("wheelbase_um", "NaN"),
        ("wheelbase_um", "1e5"),
        ("wheelbase_um", "12"),
        ("wheelbase_um", "9" * 5000),
        ("state", "flying"),
    ],
)
def test_bad_input_is_said_at_the_field_and_kept(owner, cast, field, typed):
    answer = owner.press("/cars/add/", {**FORM, field: typed})
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == [field]
    assert "coupe" in answer.content.decode()
    assert not Vehicle.objects.exists()


def test_two_cars_never_share_a_name(owner, cast):
    VehicleFactory(garage=cast.garage, name="Heron")
    answer = owner.press("/cars/add/", {**FORM, "name": "heron"})
    assert answer.context["form"].errors["name"] == ["There is a heron already."]


def test_markup_in_a_name_is_shown_as_typed(owner, cast, now):
    car = VehicleFactory(garage=cast.garage, name="<script>alert(1)</script>")
    for path in ("/cars/", f"/cars/{car.pk}/"):
        page = owner.get(path).content.decode()
        assert "<script>alert" not in page
        assert "&lt;script&gt;alert(1)" in page


def test_a_car_goes_and_comes_back_with_its_history(owner, cast, now):
    car = VehicleFactory(garage=cast.garage)
    job = JobFactory(vehicle=car)
    owner.press(f"/cars/{car.pk}/go/")
    assert not owner.get("/cars/").context["cars"]
    assert owner.get(f"/cars/{car.pk}/").status_code == 200
    owner.press(f"/cars/{car.pk}/go/")
    assert [each.pk for each in owner.get("/cars/").context["cars"]] == [car.pk]
    assert car.jobs.get() == job


def test_a_car_in_hand_or_entered_does_not_go(owner, cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    job = JobFactory(vehicle=car, title="Weld the arm", state="in_hand")
    entry = EntryFactory(event__garage=cast.garage, event__name="Saltmarsh", vehicle=car)

    def refused():
        page = owner.press(f"/cars/{car.pk}/go/", follow=True)
        return [str(each) for each in page.context["messages"]]

    assert refused() == ["“Weld the arm” is in hand: put it down or finish it first."]
    job.state = "waiting"
    job.save()
    assert refused() == ["Heron is entered for Saltmarsh: take it out of there first."]
    car.refresh_from_db()
    assert car.gone_at is None
    entry.delete()
    assert refused() == ["Heron is off the key board; its history stays."]


def test_the_page_tells_what_happened_lately_and_who_did_it(owner, helper, cast, now):
    car = VehicleFactory(garage=cast.garage)
    job = JobFactory(vehicle=car, title="Weld <the> arm")
    helper.press(f"/jobs/{job.pk}/start/")
    page = owner.get(f"/cars/{car.pk}/?tab=log")
    (step,) = page.context["log"]
    assert (step.title, step.line.did, step.line.who) == ("Weld <the> arm", "in hand", "Tove")
    assert "Weld &lt;the&gt; arm" in page.content.decode()


def test_each_reason_says_what_clears_it_and_leads_there(owner, cast, now):
    car = VehicleFactory(garage=cast.garage, state="stands")
    job = JobFactory(vehicle=car, title="Refit the arm", rank="safety", systems=["steering"])
    page = owner.get(f"/cars/{car.pk}/").content.decode()
    assert f'<a href="/jobs/{job.pk}/">Open safety job: “Refit the arm”</a>' in page
    assert "Do it and have it signed." in page
    assert "The car is on stands." in page


def test_whoever_works_says_how_it_stands(helper, viewer, cast, now):
    car = VehicleFactory(garage=cast.garage)
    assert viewer.press(f"/cars/{car.pk}/state/", {"state": "stands"}).status_code == 403
    helper.press(f"/cars/{car.pk}/state/", {"state": "stands"})
    helper.press(f"/cars/{car.pk}/state/", {"state": "upside down"})
    car.refresh_from_db()
    assert car.state == "stands"


def test_a_helper_reads_but_does_not_arrange_and_a_stranger_finds_nothing(helper, stranger, cast):
    car = VehicleFactory(garage=cast.garage)
    assert helper.press("/cars/add/", FORM).status_code == 403
    assert helper.press(f"/cars/{car.pk}/edit/", FORM).status_code == 403
    assert stranger.get(f"/cars/{car.pk}/").status_code == 404
    assert stranger.press(f"/cars/{car.pk}/go/").status_code == 404


@pytest.mark.parametrize(
    "path", ["/cars/", "/cars/{}/", "/cars/{}/?tab=gear", "/cars/{}/?tab=papers", "/cars/{}/?tab=log"]
)
def test_as_many_queries_for_three_as_for_one(owner, cast, now, path):
    first = VehicleFactory(garage=cast.garage)
    SpanFactory(job=JobFactory(vehicle=first))
    EntryFactory(event__garage=cast.garage, vehicle=first)
    one = queries(owner, path.format(first.pk))
    for _ in range(3):
        SpanFactory(job=JobFactory(vehicle=first))
        car = VehicleFactory(garage=cast.garage)
        JobFactory(vehicle=car)
        EntryFactory(event__garage=cast.garage, vehicle=first)
    assert queries(owner, path.format(first.pk)) == one <= 61

"""Several readings of a car are taken in one form; what stands beside all of them is written once."""

import pytest

from builds.readings.actions import remeasure
from builds.readings.models.reading import Reading
from tests.builds.readings.reading_kit import limit, require, take
from tests.factories import NOW, JobFactory, SpanFactory, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")
TOE = {"toe_front-value_fl": "0,05", "toe_front-value_fr": "0,06", "toe_front-instrument": "string box"}
TORQUE = {f"wheel_torque-value_{corner}": "110" for corner in ("fl", "fr", "rl", "rr")}
LOADED = {"fuel_ml": "20", "driver": "aboard", "front_pa": "1,9", "rear_pa": "1,8", "floor": "levelled"}


@pytest.fixture
def car(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    require(car, cast.owner, "toe_front", "wheel_torque", "brake_bleed")
    for key in ("toe_front", "wheel_torque"):
        limit(car, key)
    return car


def path(car):
    return f"/cars/{car.pk}/readings/many/"


def kinds(client, car):
    return [each.kind.key for each in client.get(path(car)).context["form"].each]


def test_those_that_it_must_have_and_has_not_are_offered(helper, cast, car):
    assert kinds(helper, car) == ["brake_bleed", "toe_front", "wheel_torque"]
    take(car, "brake_bleed", cast.owner)
    take(car, "toe_front", cast.owner, floor="")
    assert kinds(helper, car) == ["toe_front", "wheel_torque"]  # toe is a note only


def test_two_are_taken_and_the_third_is_left_for_later(helper, cast, car):
    answer = helper.press(path(car), {**TOE, **TORQUE, "wheel_torque-instrument": "torque wrench", **LOADED})
    assert answer["Location"] == f"/cars/{car.pk}/readings/"
    taken = {reading.kind: reading for reading in Reading.objects.all()}
    assert set(taken) == {"toe_front", "wheel_torque"}
    assert (taken["toe_front"].instrument, taken["wheel_torque"].instrument) == ("string box", "torque wrench")
    assert {reading.floor for reading in taken.values()} == {"levelled"}
    said = [str(message) for message in helper.get(answer["Location"]).context["messages"]]
    assert said == ["Measured on Heron: front toe, wheel torque."]


def test_nothing_at_all_is_said(helper, car):
    answer = helper.press(path(car), LOADED)
    assert answer.context["form"].non_field_errors() == ["Write down at least one of them."]


def test_an_instrument_without_figures_is_no_reading(helper, car):
    answer = helper.press(path(car), {"toe_front-instrument": "string box"})
    assert "toe_front-value_fl" in answer.context["form"].errors


def test_one_wrong_figure_keeps_all_from_being_written(helper, car):
    answer = helper.press(path(car), {**TOE, **TORQUE, "wheel_torque-value_rr": "tight"})
    assert answer.status_code == 422
    assert Reading.objects.count() == 0


def test_they_are_the_last_act_of_the_job_that_is_named(helper, cast, car):
    job = JobFactory(vehicle=car, title="Trim", kinds=["jam_nut"], measures=["toe_front"], state="in_hand")
    SpanFactory(job=job, from_at=NOW, until_at=None)
    form = helper.get(path(car)).context["form"]
    assert form["last_of"].value() == job.pk
    helper.press(path(car), {**TOE, **LOADED, "last_of": job.pk})
    assert Reading.objects.get().last_of == job


def test_the_list_of_readings_leads_there(helper, viewer, car):
    assert path(car) in helper.get(f"/cars/{car.pk}/readings/").content.decode()
    assert path(car) not in viewer.get(f"/cars/{car.pk}/readings/").content.decode()
    assert viewer.press(path(car), TOE).status_code == 403


def test_what_decides_whether_a_reading_counts_is_not_called_optional(helper, car):
    page = words(helper.get(path(car)).content.decode())
    assert "Front toe counts only with all of these written down" in page
    assert "Instrument (needed to count)" in page
    assert "Instrument (optional)" not in page and "Fuel aboard (optional)" not in page
    single = words(helper.get(f"/cars/{car.pk}/readings/wheel_torque/add/").content.decode())
    assert "Instrument (optional)" not in single and "Fuel aboard (optional)" in single


def test_each_is_a_line_that_says_what_it_holds_and_opens_where_something_stands(helper, car):
    form = helper.get(path(car)).context["form"]
    assert [line.holds() for line in form.each] == [
        ["3 answers"],
        ["2 figures", "instrument"],
        ["4 figures", "instrument"],
    ]
    answer = helper.press(path(car), {**TOE, "toe_front-value_fl": "a lot"})
    assert answer.content.decode().count('<details class="fold" open') == 1
    assert answer.context["form"].each[1].holds()[0] == "filled in"
    answer = helper.press(path(car), {**TOE, "toe_front-value_fl": "1 mm", "wheel_torque-value_fl": "110"})
    assert "Front toe, front left: Say where it was read too, such as 1 mm at 400 mm" in words(answer.content.decode())
    assert answer.content.decode().count('<details class="fold" open') == 1
    assert "or mm and where they were read: 1 mm at 400 mm" in words(answer.content.decode())


def test_what_waits_to_be_measured_again_is_brought_up_to_date_once_for_all_of_them(helper, car, monkeypatch):
    settle, cars = remeasure.settle, []
    monkeypatch.setattr(remeasure, "settle", lambda of, **told: cars.append(of) or settle(of, **told))
    helper.press(path(car), {**TOE, **TORQUE, **LOADED, "wheel_torque-instrument": "torque wrench"})
    assert Reading.objects.on(car).count() == 2
    assert cars == [car]

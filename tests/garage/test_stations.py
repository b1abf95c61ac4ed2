"""Stations: added, changed, deleted by the owner; hours that overlap are refused at the field."""

import pytest

from garage.actions import garages
from garage.models import Station
from tests.factories import JobFactory, JobStationFactory, StationFactory, VehicleFactory

FORM = {"name": "Welding bench", "capacity": "1", "tue": "9:00-20:30"}


def test_added_with_its_hours(owner, cast):
    answer = owner.press("/stations/add/", FORM)
    assert answer.status_code == 303
    station = Station.objects.get(garage=cast.garage)
    assert station.slug == "welding-bench"
    assert [(h.weekday, h.from_minute, h.until_minute) for h in station.weekly_hours.all()] == [(1, 540, 1230)]
    assert "Welding bench" in owner.get("/stations/").content.decode()


def test_overlapping_hours_are_refused_at_the_day_and_what_was_typed_stays(owner, cast):
    answer = owner.press("/stations/add/", {**FORM, "wed": "9:00-12:00, 11:00-13:00"})
    assert answer.status_code == 422
    assert answer.context["form"].errors["wed"] == ["Wed 9:00-12:00 and 11:00-13:00 overlap."]
    assert "9:00-12:00, 11:00-13:00" in answer.content.decode()
    assert not Station.objects.exists()


def test_a_helper_sees_but_does_not_change(helper, cast):
    station = StationFactory(garage=cast.garage)
    assert helper.get("/stations/").status_code == 200
    assert helper.press(f"/stations/{station.pk}/", FORM).status_code == 403
    assert helper.press("/stations/add/", FORM).status_code == 403


def test_a_strangers_station_is_not_there(stranger, cast):
    station = StationFactory(garage=cast.garage)
    assert stranger.press(f"/stations/{station.pk}/", FORM).status_code == 404


@pytest.mark.parametrize(
    ("titles", "named"),
    [
        ("A", "“A” on Heron"),
        ("ABC", "“A” on Heron, “B” on Heron and “C” on Heron"),
        ("ABCD", "“A” on Heron, “B” on Heron, “C” on Heron and 1 more"),
    ],
)
def test_one_in_use_is_kept_and_says_what_uses_it(owner, cast, titles, named):
    station = StationFactory(garage=cast.garage, name="Bench")
    car = VehicleFactory(garage=cast.garage, name="Heron")
    for title in titles:
        JobStationFactory(job=JobFactory(vehicle=car, title=title), station=station)
    assert owner.press(f"/stations/{station.pk}/delete/").status_code == 303
    assert Station.objects.filter(pk=station.pk).exists()
    (message,) = owner.get("/stations/").context["messages"]
    assert str(message) == f"Bench is used by {named}: take it off them first."


def test_a_double_tap_adds_one(owner, cast):
    data = {**FORM, "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"}
    first, second = owner.post("/stations/add/", data), owner.post("/stations/add/", data)
    assert (first.status_code, second.status_code) == (303, 303)
    assert first["Location"] == second["Location"]
    assert Station.objects.count() == 1
    assert owner.post("/stations/add/", {**data, "name": "Other"}).status_code == 422


def test_a_station_says_whether_a_car_stands_in_it(owner, cast):
    owner.press("/stations/add/", {"name": "Second bay", "capacity": "2", "stands": "on", "always_open": "on"})
    bay = Station.objects.get(name="Second bay")
    assert bay.stands
    assert "room for 2 cars" in owner.get("/stations/").content.decode()
    owner.press(f"/stations/{bay.pk}/", {"name": "Second bay", "capacity": "2", "always_open": "on"})
    bay.refresh_from_db()
    assert not bay.stands
    assert "2 jobs at a time" in owner.get("/stations/").content.decode()


def test_cars_stand_in_three_of_the_stations_that_come_along(cast):
    garages.furnish(cast.garage)
    there = Station.objects.in_garage(cast.garage).filter(stands=True)
    assert sorted(there.values_list("slug", flat=True)) == ["bay", "driveway", "floor"]

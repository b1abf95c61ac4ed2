"""How a driver sits: a reading with its photo and its limit, copied from one car to another, void with the seat."""

import pytest

from tests.builds.readings.reading_kit import take, voided
from tests.factories import NOW, GarageFactory, MembershipFactory, VehicleFactory
from tests.pages import words

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]


@pytest.fixture
def heron(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def moth(cast):
    return VehicleFactory(garage=cast.garage, name="Moth")


def test_what_fits_in_one_car_is_the_start_in_another(owner, cast, heron, moth):
    reading = take(heron, "driver_fit", cast.owner, amount=25_000)
    page = owner.get(f"/cars/{moth.pk}/readings/driver_fit/")
    assert "Start from Heron" in words(page.content.decode())
    form = owner.get(f"/cars/{moth.pk}/readings/driver_fit/add/?from={reading.pk}").context["form"]
    assert form["value_helmet_bar"].value() in ("25", "25.0")
    assert "Start from Heron" not in words(owner.get(f"/cars/{heron.pk}/readings/driver_fit/").content.decode())


def test_other_readings_stay_on_their_car(owner, cast, heron, moth):
    reading = take(heron, "camber", cast.owner, amount=-2_000)
    form = owner.get(f"/cars/{moth.pk}/readings/camber/add/?from={reading.pk}").context["form"]
    assert not form["value_fl"].value()
    assert "Start from Heron" not in words(owner.get(f"/cars/{moth.pk}/readings/camber/").content.decode())


def test_a_strangers_driver_is_not_offered(owner, cast, moth):
    garage = GarageFactory(name="Another")
    stranger = MembershipFactory(garage=garage, role="owner")
    reading = take(VehicleFactory(garage=garage), "driver_fit", stranger, amount=25_000)
    form = owner.get(f"/cars/{moth.pk}/readings/driver_fit/add/?from={reading.pk}").context["form"]
    assert not form["value_helmet_bar"].value()
    assert "Start from Heron" not in words(owner.get(f"/cars/{moth.pk}/readings/driver_fit/").content.decode())


@pytest.mark.parametrize("kind", ["seat_work", "seat_or_belt_moved", "steering_column", "throttle"])
def test_work_on_seat_wheel_or_pedals_makes_it_void(owner, cast, heron, kind):
    take(heron, "driver_fit", cast.owner, amount=25_000, at=NOW.replace(hour=10))
    voided(heron, cast.owner, kind, hours=1)
    assert "void" in words(owner.get(f"/cars/{heron.pk}/readings/driver_fit/").content.decode()).lower()

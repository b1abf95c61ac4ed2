"""The course of a shop's temperature is worked out once a slot, and anew after a write."""

from datetime import timedelta

import pytest

from builds.cure.facts.shop import shop_of
from builds.cure.models.shop import TemperatureReading
from garage.models import Garage
from tests.factories import NOW

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.once]
SLOT = timedelta(minutes=15)


@pytest.fixture(autouse=True)
def remembers(settings, monkeypatch):
    settings.REMEMBERS = True
    monkeypatch.setattr("garage.remembered._notes", {})


def test_a_slot_has_one_course_until_somebody_reads_the_thermometer(cast):
    garage = Garage.objects.get(pk=cast.garage.pk)
    course = shop_of(garage, NOW - SLOT / 3).course
    assert shop_of(garage, NOW).course is course
    later = shop_of(garage, NOW + SLOT / 3)
    assert later.course is not course
    assert later.at_moment(NOW + 9 * SLOT) == pytest.approx(shop_of(garage, NOW).at_moment(NOW + 9 * SLOT))
    TemperatureReading.objects.create(garage=garage, at=NOW, air_mc=31_000, by=cast.owner)
    garage.writes += 1
    assert shop_of(garage, NOW).at_moment(NOW) == pytest.approx(31)

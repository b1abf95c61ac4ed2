"""A reading taken with a wrench or scales out of their date says so, on the page and on paper."""

from datetime import date

import pytest

from builds.readings.facts.readings import readings_of
from builds.readings.pages.setup import setup_sheet
from tests.builds.gear.gear_kit import piece
from tests.builds.readings.reading_kit import HOUR, take, text, url
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.django_db
SAID = "What it was taken with was out of its date: Ran out on 1 March 2027"


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.mark.parametrize(("last", "out"), [(date(2027, 3, 1), True), (date(2027, 3, 2), False)])
def test_out_on_the_day_before_and_not_on_its_last_day(owner, cast, car, last, out):
    piece(garage=cast.garage, kind="free", name="Big torque wrench", last=last)
    take(car, "wheel_torque", cast.owner, instrument=" big Torque wrench ")
    for page in (url("reading_page", car, "wheel_torque"), url("reading_list", car)):
        assert (SAID in text(owner, page)) == out
    (kind,) = setup_sheet(car, NOW).kinds
    assert kind.instrument.startswith(SAID) == out
    assert readings_of(cast.garage, [car], NOW)[car.pk].lines["wheel_torque"].state == "stands"


def test_another_instrument_a_cars_gear_one_out_of_use_and_one_without_a_date_say_nothing(owner, cast, car):
    last = date(2027, 3, 1)
    piece(garage=cast.garage, kind="free", name="Scales", last=last)
    piece(car, kind="free", name="Wrench", last=last)
    piece(garage=cast.garage, kind="free", name="Wrench", last=last, retired_at=NOW, retired_because="dropped")
    piece(garage=cast.garage, kind="free", name="Wrench", last=None)
    take(car, "wheel_torque", cast.owner, instrument="Wrench")
    assert SAID not in text(owner, url("reading_page", car, "wheel_torque"))


def test_each_of_the_earlier_ones_is_judged_on_its_own_day(owner, cast, car):
    piece(garage=cast.garage, kind="free", name="Wrench", last=date(2027, 3, 1))
    take(car, "wheel_torque", cast.owner, at=NOW - 30 * HOUR, instrument="Wrench")
    take(car, "wheel_torque", cast.owner, instrument="Wrench")
    page = text(owner, url("reading_page", car, "wheel_torque"))
    assert page.split(">All of them<")[1].count(SAID) == 1

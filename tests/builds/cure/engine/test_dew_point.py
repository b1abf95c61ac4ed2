"""The gate before a coat: its reasons in words, and the slots it leaves open."""

import pytest

from builds.cure.engine import (
    PAINT_LIMITS,
    AirReading,
    CoatingLimits,
    DewCourse,
    DewPointError,
    Heat,
    Temperature,
    allowed_windows,
    dew_point,
    shipped_products,
    shop_temperature,
)
from tests.builds.cure.coats import coating_verdict

PRIMER = shipped_products()["epoxy-primer"].limits


def test_good_weather_has_no_reasons():
    verdict = coating_verdict(PRIMER, air=20, humidity=50, steel=19)
    assert verdict.allowed
    assert verdict.reasons == ()


def test_everything_wrong_is_said_at_once():
    verdict = coating_verdict(PRIMER, air=8, humidity=95, steel=6)
    assert [reason.kind for reason in verdict.reasons] == ["cold", "dew", "humid"]


def test_steel_that_stayed_cold_in_warming_air_sweats():
    # Air warmed to 18 °C at 60 %, its dew point near 10 °C, over steel that the night left at 8 °C.
    assert coating_verdict(PAINT_LIMITS, air=18, humidity=60).allowed
    cold = coating_verdict(PAINT_LIMITS, air=18, humidity=60, steel=8)
    assert [reason.kind for reason in cold.reasons] == ["dew"]
    assert cold.margin < 0


@pytest.mark.parametrize(("humidity", "allowed"), [(84.99, True), (85, False), (85.01, False)])
def test_humidity_must_be_below_its_limit(humidity, allowed):
    assert coating_verdict(PAINT_LIMITS, air=20, humidity=humidity, steel=30).allowed is allowed


def test_metal_exactly_at_the_minimum_will_do():
    assert coating_verdict(CoatingLimits(minimum=10), air=20, humidity=50, steel=10).allowed


@pytest.mark.parametrize(("air", "humidity"), [(20, 0), (20, 101), (-50, 50), (70, 50)])
def test_air_that_cannot_be_is_refused(air, humidity):
    with pytest.raises(DewPointError, match=r"\.$"):
        coating_verdict(PAINT_LIMITS, air=air, humidity=humidity, steel=20)
    with pytest.raises(DewPointError):
        DewCourse.of([AirReading(0, air, humidity)])


def windows(limits, shop, dew=None, slots=12):
    return allowed_windows(limits, shop, dew, slot_minutes=60, slots=slots)


def test_without_limits_every_slot_is_open():
    assert windows(CoatingLimits(), Temperature.fixed(-5)) == [(0, 12)]


def test_only_slots_that_are_warm_throughout_are_open():
    warming = Temperature.through([(0, 5), (600, 15), (1200, 5)], smooth=False)
    assert windows(CoatingLimits(minimum=10), warming, slots=18) == [(5, 15)]
    assert windows(CoatingLimits(minimum=10.1), warming, slots=18) == [(6, 14)]
    assert windows(CoatingLimits(minimum=15.1), warming, slots=18) == []


def test_a_dip_inside_a_slot_shuts_it():
    dip = Temperature.steps([(130, 15), (10, 5), (460, 15)])
    assert windows(CoatingLimits(minimum=10), dip, slots=10) == [(0, 2), (3, 10)]


def test_past_the_known_weather_nothing_is_open():
    assert windows(CoatingLimits(), Temperature.steps([(150, 15)]), slots=5) == [(0, 2)]


def test_heat_opens_the_window_by_way_of_the_dew_point():
    # Air at 8 °C and 90 %: the dew point is 6.5 °C, so the metal must be at 10 °C for the product.
    dew = DewCourse.of([AirReading(0, 8, 90)])
    cold = Temperature.fixed(8)
    assert windows(PRIMER, cold, dew) == []
    heated = shop_temperature(cold, heats=[Heat(180, 480, 14)])
    assert windows(PRIMER, heated, dew) == [(3, 8)]


def test_rising_damp_shuts_the_window():
    readings = [AirReading(360, 15, 90), AirReading(0, 15, 50)]
    dew = DewCourse.of(readings)
    shop = Temperature.fixed(15)
    ((begin, end),) = windows(PRIMER, shop, dew)
    assert begin == 0
    at_the_end = 15 - dew.at(end * 60)
    an_hour_later = 15 - dew.at((end + 1) * 60)
    assert at_the_end >= 3 > an_hour_later
    assert dew.at(-100) == dew_point(15, 50)
    assert dew.at(9999) == dew_point(15, 90)


def test_a_damp_moment_inside_a_slot_shuts_it():
    dew = DewCourse.of([AirReading(60, 15, 50), AirReading(90, 15, 95), AirReading(120, 15, 50)])
    assert windows(PRIMER, Temperature.fixed(15), dew, slots=4) == [(0, 1), (2, 4)]


def test_no_reading_is_no_course():
    with pytest.raises(ValueError, match="at least one reading"):
        DewCourse.of([])

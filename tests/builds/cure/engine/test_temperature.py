"""The course of temperature in the shop: steps, swings, heated hours, readings."""

import math

import pytest

from builds.cure.engine import Heat, ShopReading, Temperature, TemperatureError, shop_temperature
from builds.cure.engine.temperature import Ramp, Swing

SWINGING = Temperature.through([(0, 5), (720, 15), (1440, 5), (2160, 15)], smooth=True)


def test_steps_are_held_and_the_later_value_counts_at_a_jump():
    course = Temperature.steps([(60, 18), (30, 8)])
    assert [course.at(minute) for minute in (-500, 0, 59.9, 60, 90)] == [18, 18, 18, 8, 8]
    with pytest.raises(TemperatureError, match="not known as far ahead"):
        course.at(90.1)


def test_points_are_met_and_joined():
    straight = Temperature.through([(0, 5), (720, 15)], smooth=False)
    assert [SWINGING.at(m) for m in (0, 720, 1440)] == [5, 15, 5]
    assert SWINGING.at(360) == pytest.approx(10)
    assert SWINGING.at(180) == pytest.approx(10 - 5 * math.sqrt(0.5))
    assert straight.at(180) == pytest.approx(7.5)
    assert straight.at(-1) == 5


@pytest.mark.parametrize("shape", [Swing(10, 70, 3, 19), Ramp(10, 70, 19, 3)])
def test_when_is_the_other_way_round_of_at(shape):
    for minute in (10, 11, 35, 69, 70):
        assert shape.when(shape.at(minute)) == pytest.approx(minute)


@pytest.mark.parametrize(
    "make",
    [
        lambda: Temperature.fixed(math.nan),
        lambda: Temperature.fixed(900),
        lambda: Temperature.steps([]),
        lambda: Temperature.steps([(0, 10)]),
        lambda: Temperature.through([], smooth=True),
        lambda: Temperature.through([(5, 10), (5, 11)], smooth=True),
        lambda: shop_temperature(Temperature.fixed(10), readings=[ShopReading(0, 500)]),
        lambda: shop_temperature(Temperature.fixed(10), readings=[ShopReading(math.inf, 5)]),
        lambda: shop_temperature(SWINGING, readings=[ShopReading(9999, 5)]),
    ],
)
def test_what_cannot_be_is_refused(make):
    with pytest.raises(TemperatureError, match=r"\.$"):
        make()


def test_heated_hours_lift_to_a_floor_and_leave_what_is_warmer():
    heated = shop_temperature(SWINGING, heats=[Heat(100, 1000, 12)])
    assert heated.at(99) == SWINGING.at(99)
    assert heated.at(100) == heated.at(300) == 12
    assert heated.at(720) == 15
    assert heated.at(999) == 12
    assert heated.at(1000) == SWINGING.at(1000)
    for minute in range(0, 2160, 7):
        floor = 12 if 100 <= minute < 1000 else -99
        assert heated.at(minute) == pytest.approx(max(floor, SWINGING.at(minute)))


def test_overlapping_heats_give_the_warmer_floor():
    heats = [Heat(0, 100, 12), Heat(50, 200, 18), Heat(60, 70, 15), Heat(300, 300, 40)]
    heated = shop_temperature(Temperature.fixed(5), heats=heats)
    assert [heated.at(m) for m in (-1, 0, 50, 65, 150, 200, 300)] == [5, 12, 18, 18, 18, 5, 5]


def test_the_course_passes_through_every_reading():
    readings = [ShopReading(1000, 9.5), ShopReading(100, 4), ShopReading(100, 3), ShopReading(400, 13)]
    logged = shop_temperature(SWINGING, readings=readings)
    assert logged.at(100) == pytest.approx(3)
    assert logged.at(400) == pytest.approx(13)
    assert logged.at(999.999) == pytest.approx(9.5, abs=1e-3)
    assert logged.at(1001) == SWINGING.at(1001)
    first_off = 3 - SWINGING.at(100)
    assert logged.at(20) == pytest.approx(SWINGING.at(20) + first_off)


def test_between_readings_the_correction_grows_evenly():
    readings = [ShopReading(100, SWINGING.at(100) - 2), ShopReading(700, SWINGING.at(700) + 4)]
    logged = shop_temperature(SWINGING, readings=readings)
    for minute in range(100, 700, 11):
        expected = SWINGING.at(minute) - 2 + 6 * (minute - 100) / 600
        assert logged.at(minute) == pytest.approx(expected, abs=0.005)


def test_a_fixed_forecast_with_readings_is_straight_lines_between_them():
    readings = [ShopReading(60, 12), ShopReading(120, 14)]
    logged = shop_temperature(Temperature.fixed(15), readings=readings)
    assert [logged.at(m) for m in (0, 60, 90, 120)] == [12, 12, 13, 15]
    kept = shop_temperature(Temperature.fixed(15), readings=readings, keep_correction=True)
    assert [kept.at(m) for m in (90, 120, 10_000)] == [13, 14, 14]


def test_a_kept_correction_moves_the_forecast_but_not_the_heater():
    kept = shop_temperature(
        SWINGING,
        heats=[Heat(1300, 1500, 18)],
        readings=[ShopReading(720, 12)],
        keep_correction=True,
    )
    assert kept.at(1000) == pytest.approx(SWINGING.at(1000) - 3)
    assert kept.at(1400) == 18
    assert kept.at(1600) == pytest.approx(SWINGING.at(1600) - 3)


def test_a_reading_while_heated_says_nothing_of_the_cold_hours_when_it_meets_the_floor():
    heats = [Heat(0, 100, 18)]
    kept = shop_temperature(Temperature.fixed(6), heats=heats, readings=[ShopReading(50, 18)], keep_correction=True)
    assert kept.at(200) == 6


def test_a_heated_hour_between_two_readings_stays_warm():
    logged = shop_temperature(
        Temperature.fixed(6),
        heats=[Heat(100, 200, 18)],
        readings=[ShopReading(0, 5), ShopReading(300, 5)],
    )
    assert [logged.at(m) for m in (50, 150, 250)] == [5, 17, 5]

"""A reading bends the expected course for a day either way and is then forgotten."""

import pytest

from builds.cure.engine import Heat, ShopReading, Temperature, fading, shop_temperature

EXPECTED = Temperature.fixed(10)
HOUR = 60.0
DAY = 24 * HOUR


def course(*readings: ShopReading, expected: Temperature = EXPECTED) -> Temperature:
    return shop_temperature(expected, readings=fading(readings, expected))


def test_no_reading_no_change() -> None:
    assert fading([], EXPECTED) == []


def test_one_reading_fades_in_a_straight_line_both_ways() -> None:
    told = course(ShopReading(0.0, 4))
    hours = (-48, -24, -12, 0, 6, 18, 24, 500)
    assert [told.at(h * HOUR) for h in hours] == pytest.approx([10, 10, 7, 4, 5.5, 8.5, 10, 10])


def test_readings_within_two_days_are_joined() -> None:
    told = course(ShopReading(0.0, 4), ShopReading(40 * HOUR, 8))
    assert told.at(20 * HOUR) == pytest.approx(6)


def test_between_readings_further_apart_it_comes_back_to_what_was_expected() -> None:
    told = course(ShopReading(0.0, 4), ShopReading(5 * DAY, 20))
    assert [told.at(d * DAY) for d in (0.5, 1, 2.5, 4, 4.5, 5)] == pytest.approx([7, 10, 10, 10, 15, 20])


def test_the_later_given_of_one_minute_counts_and_order_does_not() -> None:
    assert course(ShopReading(60.0, 9), ShopReading(0.0, 1), ShopReading(0.0, 4)).at(0) == pytest.approx(4)


def test_a_reading_past_the_end_of_the_course_is_left_out() -> None:
    short = Temperature.steps([(DAY, 10)])
    assert fading([ShopReading(2 * DAY, 4)], short) == []
    assert course(ShopReading(0.5 * DAY, 4), expected=short).at(DAY) == pytest.approx(10)


def test_heat_that_overlaps_is_the_warmest_and_that_apart_stands_apart() -> None:
    heats = [Heat(0, 100, 15), Heat(50, 150, 20), Heat(200, 300, 12), Heat(260, 280, 11)]
    told = shop_temperature(EXPECTED, heats=heats)
    minutes = (-1, 25, 75, 125, 175, 250, 270, 301)
    assert [told.at(minute) for minute in minutes] == [10, 15, 20, 20, 10, 12, 12, 10]

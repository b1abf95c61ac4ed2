"""Local days on the axis of elapsed minutes, on days of 23, 24 and 25 hours."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from builds.cure.engine import (
    CureRule,
    DayRange,
    Heat,
    Product,
    Stage,
    TemperatureError,
    daily_temperature,
    minutes_since,
    ready_at,
    shop_temperature,
)
from garage.engine.presence import wall_moment

LISBON = ZoneInfo("Europe/Lisbon")
SPRING, AUTUMN = date(2027, 3, 28), date(2027, 10, 31)
DAY = timedelta(days=1)
# One hour of progress an hour when warm, none when cold: it counts the hours of warmth.
COUNTER = Product("counter", "Counter", ((Stage.FULL, CureRule(20, 8, 1)),), minimum=15)


def midnight(day, zone=LISBON):
    return wall_moment(day, 0, zone)


def course(ranges, day, days=3, zone=LISBON, **more):
    origin = midnight(day, zone)
    return daily_temperature(ranges, origin=origin, until=origin + days * DAY, zone=zone, **more), origin


@pytest.mark.parametrize(("day", "hours"), [(SPRING, 23), (AUTUMN, 25), (date(2027, 6, 1), 24)])
def test_a_local_day_has_as_many_hours_as_it_has(day, hours):
    assert minutes_since(midnight(day), midnight(day + DAY)) == hours * 60


@pytest.mark.parametrize("day", [SPRING, AUTUMN, date(2027, 6, 1)])
def test_lows_and_highs_stand_at_their_local_hour(day):
    ranges = [DayRange(day - DAY, 2, 12), DayRange(day, 4, 16), DayRange(day + DAY, 6, 11)]
    temperature, origin = course(ranges, day - DAY)
    for given in ranges:
        for clock, celsius in ((time(3), given.low), (time(15), given.high)):
            local = datetime.combine(given.day, clock, LISBON)
            assert temperature.at(minutes_since(origin, local)) == pytest.approx(celsius)


def test_the_night_in_which_the_clocks_change_is_an_hour_shorter_or_longer():
    for day, hours in ((SPRING, 11), (AUTUMN, 13)):
        temperature, origin = course([DayRange(day, 5, 15)], day - DAY)
        evening = minutes_since(origin, datetime.combine(day - DAY, time(15), LISBON))
        assert temperature.at(evening + hours * 60) == pytest.approx(5)
        assert temperature.at(evening + hours * 30) == pytest.approx(10)


def test_days_not_given_are_like_the_last_given_or_like_the_first():
    day = date(2027, 6, 1)
    ranges = [DayRange(day + 2 * DAY, 8, 18), DayRange(day, 4, 14)]
    temperature, _ = course(ranges, day - DAY, days=6)
    highs = [temperature.at((24 * k + 15) * 60) for k in range(6)]
    assert highs == pytest.approx([14, 14, 14, 18, 18, 18])


def test_a_cure_that_began_before_the_origin_has_its_weather():
    day = date(2027, 6, 10)
    since = midnight(day) - 4 * DAY
    ranges = [DayRange(day - 4 * DAY, 0, 10), DayRange(day - 2 * DAY, 8, 20)]
    temperature, _ = course(ranges, day, since=since)
    assert temperature.at((-4 * 24 + 15) * 60) == pytest.approx(10)
    assert temperature.at((-2 * 24 + 15) * 60) == pytest.approx(20)
    assert temperature.end >= 3 * 1440


@pytest.mark.parametrize(("day", "ready_hours"), [(SPRING, 33), (AUTUMN, 35), (date(2027, 6, 1), 34)])
def test_a_cure_over_a_change_of_the_clocks_counts_elapsed_heat(day, ready_hours):
    # Heated 06:00 to 10:00 local; eight hours of warmth are the first day's and the next day's.
    origin = midnight(day)
    cold, _ = course([DayRange(day, 2, 8)], day)
    local = [[minutes_since(origin, wall_moment(on, hour * 60, LISBON)) for hour in (6, 10)] for on in (day, day + DAY)]
    heats = [Heat(begin, end, 18) for begin, end in local]
    shop = shop_temperature(cold, heats=heats)
    ready = ready_at(COUNTER, Stage.FULL, 0, shop)
    assert ready == pytest.approx(ready_hours * 60)
    assert (origin + timedelta(minutes=ready)).astimezone(LISBON).time() == time(10)


def test_moments_without_a_zone_and_impossible_days_are_refused():
    with pytest.raises(TemperatureError, match="time zone"):
        minutes_since(datetime(2027, 1, 1), datetime(2027, 1, 2, tzinfo=UTC))
    with pytest.raises(TemperatureError, match="at least one day"):
        course([], SPRING)
    with pytest.raises(TemperatureError, match="low is above the high"):
        course([DayRange(SPRING, 9, 3)], SPRING)


def test_the_first_night_already_cools_from_a_day_like_the_first():
    temperature, _ = course([DayRange(SPRING, 5, 15)], date(2027, 6, 1))
    three_quarters_of_the_way_down = 10 - 5 * 0.5**0.5
    assert temperature.at(0) == pytest.approx(three_quarters_of_the_way_down)

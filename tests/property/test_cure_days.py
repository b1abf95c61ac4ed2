"""Local days in any zone and season: the course is continuous and meets each low and high."""

from datetime import date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from builds.cure.engine import DayRange, daily_temperature, heated_hours, minutes_since, moment_of

DAY = timedelta(days=1)
# Half-hour changes, changes at midnight and far from UTC among them.
zones = st.sampled_from(
    ["Europe/Lisbon", "America/New_York", "Australia/Lord_Howe", "Pacific/Apia", "America/Santiago"]
).map(ZoneInfo)
days = st.dates(date(2026, 1, 1), date(2028, 12, 31))
clocks = st.times().map(lambda clock: clock.replace(second=0, microsecond=0))


@st.composite
def weather(draw):
    first = draw(days)
    ranges = []
    for k in range(draw(st.integers(1, 6))):
        low = draw(st.integers(-10, 20))
        ranges.append(DayRange(first + k * DAY, low, low + draw(st.integers(0, 20))))
    return ranges


@given(weather(), zones)
def test_each_day_meets_its_low_and_its_high_and_nothing_jumps(ranges, zone):
    origin = datetime.combine(ranges[0].day, time(1), zone)
    until = origin + len(ranges) * DAY
    course = daily_temperature(ranges, origin=origin, until=until, zone=zone)
    for given_day in ranges:
        for clock, celsius in ((time(3), given_day.low), (time(15), given_day.high)):
            minute = minutes_since(origin, moment_of(given_day.day, clock, zone))
            assert abs(course.at(minute) - celsius) < 1e-9
    lowest, highest = min(r.low for r in ranges), max(r.high for r in ranges)
    values = [course.at(minute) for minute in range(0, len(ranges) * 1440, 10)]
    assert all(lowest - 1e-9 <= value <= highest + 1e-9 for value in values)
    assert all(abs(b - a) < 2 for a, b in pairwise(values))


@given(days, clocks, zones)
def test_a_moment_shows_its_time_unless_that_time_is_skipped(day, clock, zone):
    first, last = (moment_of(day, clock, zone, last=last).astimezone(zone) for last in (False, True))
    assert first <= last
    shown = (first.date(), first.time())
    if shown != (day, clock):
        assert shown > (day, clock)
        just_before = (moment_of(day, clock, zone) - timedelta(seconds=1)).astimezone(zone)
        assert (just_before.date(), just_before.time()) < (day, clock)
        assert first == last


@given(days, clocks, clocks, zones)
def test_heated_hours_never_run_backwards_or_past_a_day_and_an_hour(day, opens, closes, zone):
    origin = datetime.combine(day, time(12), zone)
    (heat,) = heated_hours([day], opens=opens, closes=closes, celsius=15, origin=origin, zone=zone)
    assert 0 <= heat.end - heat.begin <= 25 * 60

"""Local days in any zone and season: the course is continuous and meets each low and high."""

from datetime import date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from builds.cure.engine import DayRange, daily_temperature, minutes_since
from garage.engine.presence import wall_moment

DAY = timedelta(days=1)
# Half-hour changes, changes at midnight and far from UTC among them.
zones = st.sampled_from(
    ["Europe/Lisbon", "America/New_York", "Australia/Lord_Howe", "Pacific/Apia", "America/Santiago"]
).map(ZoneInfo)
days = st.dates(date(2026, 1, 1), date(2028, 12, 31))


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
        for hour, celsius in ((3, given_day.low), (15, given_day.high)):
            minute = minutes_since(origin, wall_moment(given_day.day, hour * 60, zone))
            assert abs(course.at(minute) - celsius) < 1e-9
    lowest, highest = min(r.low for r in ranges), max(r.high for r in ranges)
    values = [course.at(minute) for minute in range(0, len(ranges) * 1440, 10)]
    assert all(lowest - 1e-9 <= value <= highest + 1e-9 for value in values)
    assert all(abs(b - a) < 2 for a, b in pairwise(values))

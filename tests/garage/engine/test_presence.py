"""Wall-clock hours as moments, held against zoneinfo through clock changes."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from garage.engine.presence import DayRule, day_stretches, merged, wall_moment, windows_between

# Days on which the clock of a zone changes, and how long they are: as in the IANA time zone
# database, https://www.iana.org/time-zones (files europe, northamerica, australasia, asia).
CHANGES = [
    ("Europe/Lisbon", date(2027, 3, 28), 23),
    ("Europe/Lisbon", date(2027, 10, 31), 25),
    ("America/Chicago", date(2027, 3, 14), 23),
    ("America/Chicago", date(2027, 11, 7), 25),
    ("America/Havana", date(2024, 3, 10), 23),  # jumps at midnight: the day has no 00:30
    ("America/Havana", date(2024, 11, 3), 25),
    ("Australia/Lord_Howe", date(2027, 4, 4), 24.5),
    ("Australia/Lord_Howe", date(2027, 10, 3), 23.5),
    ("Asia/Kolkata", date(2027, 3, 28), 24),
    ("Pacific/Apia", date(2011, 12, 30), 0),  # the day that Samoa left out
]


def instants_by_the_wall(day: date, since: int, until: int, zone: ZoneInfo) -> set[datetime]:
    """Every whole minute whose clock reads within the stretch, found by walking through UTC."""
    step = datetime(day.year, day.month, day.day, tzinfo=UTC) - timedelta(hours=30)
    found = set()
    for _ in range(84 * 60):
        wall = step.astimezone(zone)
        if wall.date() == day and since <= wall.hour * 60 + wall.minute < until:
            found.add(step)
        step += timedelta(minutes=1)
    return found


@pytest.mark.parametrize(("name", "day", "hours"), CHANGES)
def test_a_whole_day_is_as_long_as_the_zone_makes_it(name, day, hours):
    zone = ZoneInfo(name)
    length = wall_moment(day, 1440, zone) - wall_moment(day, 0, zone)
    assert length == timedelta(hours=hours)
    assert length == timedelta(minutes=len(instants_by_the_wall(day, 0, 1440, zone)))


@pytest.mark.parametrize(("name", "day", "_hours"), CHANGES)
def test_stretches_that_touch_on_the_wall_touch_in_time(name, day, _hours):
    zone = ZoneInfo(name)
    moments = [wall_moment(day, minute, zone) for minute in range(0, 1441, 10)]
    assert moments == sorted(moments)
    for minute, moment in zip(range(0, 1440, 10), moments, strict=False):
        wall = moment.astimezone(zone)
        assert (wall.date(), wall.hour * 60 + wall.minute) >= (day, minute)
        earlier = (moment - timedelta(minutes=1)).astimezone(zone)
        assert (earlier.date(), earlier.hour * 60 + earlier.minute) < (day, max(minute, 1)) or (
            earlier.utcoffset() > wall.utcoffset()
        )


@pytest.mark.parametrize(("since", "until"), [(0, 1440), (18 * 60, 22 * 60), (30, 300), (90, 400), (70, 110)])
@pytest.mark.parametrize(
    ("name", "day"),
    [(n, d) for n, d, hours in CHANGES if hours in (23, 23.5, 24)],
)
def test_where_no_hour_comes_twice_a_window_is_its_wall_clock_minutes(name, day, since, until):
    zone = ZoneInfo(name)
    walked = instants_by_the_wall(day, since, until, zone)
    start, end = wall_moment(day, since, zone), wall_moment(day, until, zone)
    assert end - start == timedelta(minutes=len(walked))
    assert not walked or start == min(walked)


def test_an_evening_across_the_hour_that_comes_twice_is_longer():
    zone = ZoneInfo("Europe/Lisbon")  # 31 October 2027: 02:00 summer time goes back to 01:00
    found = windows_between(
        {6: [(0, 180)]},
        {},
        zone,
        datetime(2027, 10, 30, tzinfo=UTC),
        datetime(2027, 11, 2, tzinfo=UTC),
    )
    assert found == [(datetime(2027, 10, 30, 23, 0, tzinfo=UTC), datetime(2027, 10, 31, 3, 0, tzinfo=UTC))]


def test_hours_inside_the_jump_are_no_hours():
    zone = ZoneInfo("Europe/Lisbon")  # 28 March 2027: 01:00 goes to 02:00
    found = windows_between(
        {6: [(60, 120), (90, 150)]},
        {},
        zone,
        datetime(2027, 3, 27, tzinfo=UTC),
        datetime(2027, 3, 30, tzinfo=UTC),
    )
    assert found == [(datetime(2027, 3, 28, 1, 0, tzinfo=UTC), datetime(2027, 3, 28, 1, 30, tzinfo=UTC))]


def test_off_and_instead_replace_the_weeks_hours_and_extra_adds():
    weekly = [(1080, 1320)]
    assert day_stretches(weekly, []) == [(1080, 1320)]
    assert day_stretches(weekly, [DayRule("off", None, None)]) == []
    assert day_stretches(weekly, [DayRule("instead", 600, 700)]) == [(600, 700)]
    assert day_stretches(weekly, [DayRule("extra", 600, 700)]) == [(600, 700), (1080, 1320)]
    both = [DayRule("off", None, None), DayRule("extra", 600, 700)]
    assert day_stretches(weekly, both) == [(600, 700)]


def test_windows_that_touch_over_midnight_are_one_and_are_cut_at_the_ends():
    zone = ZoneInfo("UTC")
    since, until = datetime(2027, 3, 1, 21, tzinfo=UTC), datetime(2027, 3, 2, 1, tzinfo=UTC)
    weekly = {0: [(1200, 1440)], 1: [(0, 120)]}
    assert windows_between(weekly, {}, zone, since, until) == [(since, until)]


def test_merged_joins_what_overlaps_and_drops_what_is_empty():
    at = [datetime(2027, 3, 1, hour, tzinfo=UTC) for hour in range(6)]
    assert merged([(at[3], at[5]), (at[0], at[1]), (at[2], at[2]), (at[1], at[2]), (at[4], at[5])]) == [
        (at[0], at[2]),
        (at[3], at[5]),
    ]

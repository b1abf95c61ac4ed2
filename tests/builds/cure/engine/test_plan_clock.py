"""Moments of a plan in words: a weekday alone only where nobody can take it for another."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from builds.cure.engine.plan_clock import PlanClock

# A Monday evening; the event's cars leave on Saturday of the week after.
START = datetime(2026, 11, 30, 18, 45, tzinfo=UTC)
LEAVES = datetime(2026, 12, 12, 6, 30, tzinfo=UTC)
CLOCK = PlanClock(START, ZoneInfo("UTC"))


def day(days, hour=10):
    return datetime(2026, 11, 30, hour, tzinfo=UTC) + timedelta(days=days)


@pytest.mark.parametrize(("days", "words"), [(2, "Wed 10:00"), (5, "Sat 10:00"), (6, "Sun 6 Dec 10:00")])
def test_a_day_six_or_more_days_off_has_its_date(days, words):
    assert CLOCK.said(day(days)) == words


@pytest.mark.parametrize(
    ("days", "beside", "words"),
    [
        (3, (), "Thu 10:00"),
        (5, (), "Sat 5 Dec 10:00"),  # else it would be read as the event's Saturday
        (2, (8,), "Wed 2 Dec 10:00"),
        (2, (3,), "Wed 10:00"),
        (12, (), "Sat 12 Dec 10:00"),
    ],
)
def test_beside_a_date_and_on_the_weekday_of_the_event_it_has_its_date_too(days, beside, words):
    assert CLOCK.said_beside(day(days), [day(other) for other in beside], against=LEAVES) == words


def test_the_very_day_of_the_event_needs_none():
    assert CLOCK.said_beside(day(3, 6), (), against=day(3, 20)) == "Thu 06:00"


def test_slots_begin_at_the_first_quarter_of_an_hour_that_is_not_over():
    for second, quarter in ((0, 0), (1, 15), (899, 15), (900, 15), (901, 30)):
        at = datetime(2026, 11, 30, 18, tzinfo=UTC) + timedelta(seconds=second)
        clock = PlanClock.from_moment(at, ZoneInfo("UTC"))
        assert clock.moment(0) == datetime(2026, 11, 30, 18, quarter, tzinfo=UTC)


def test_a_moment_within_a_slot_has_one_that_has_begun_and_one_that_is_to_come():
    for minutes, first, last in ((-1, 0, -1), (0, 0, 0), (1, 1, 0), (15, 1, 1), (16, 2, 1), (-15, -1, -1)):
        moment = START + timedelta(minutes=minutes)
        assert (CLOCK.first_from(moment), CLOCK.last_until(moment)) == (first, last)

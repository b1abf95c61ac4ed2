"""Runs by the day on which the car was ready."""

from datetime import date, timedelta

from builds.odds.days import MOST_DAYS, ReadyDay, ready_days

MONDAY = date(2027, 3, 1)
NEVER = float("inf")


def day_of(slot):
    return MONDAY + timedelta(days=slot // 96)


def test_runs_of_the_day_it_leaves_are_in_time_and_too_late_by_the_hour():
    days = ready_days([100, 140, 141, 200, NEVER], 140, MONDAY + timedelta(days=1), day_of)
    assert days == [ReadyDay(MONDAY + timedelta(days=1), 2, 1), ReadyDay(MONDAY + timedelta(days=2), 0, 1)]


def test_days_without_a_run_are_there_up_to_the_day_it_leaves():
    days = ready_days([10], 400, MONDAY + timedelta(days=4), day_of)
    assert [(day.in_time, day.late) for day in days] == [(1, 0), (0, 0), (0, 0), (0, 0), (0, 0)]


def test_all_runs_are_counted_however_far_they_lie_apart():
    days = ready_days([0, 96 * MOST_DAYS, 96 * 500], 96 * 501, MONDAY, day_of)
    assert len(days) == MOST_DAYS
    assert sum(day.in_time for day in days) == 3 and days[-1].in_time == 2


def test_a_car_that_is_never_ready_has_no_days():
    assert ready_days([NEVER, NEVER], 10, MONDAY, day_of) == []

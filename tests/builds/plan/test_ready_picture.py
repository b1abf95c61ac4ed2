"""The picture of the runs of a car, in numbers and in words."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.pages.ready_picture import HEIGHT, WIDTH, ready_picture

CLOCK = PlanClock(datetime(2027, 3, 1, tzinfo=UTC), ZoneInfo("UTC"))
NEVER = float("inf")


def test_full_bars_are_in_time_and_hollow_ones_too_late_on_top_of_them():
    due = datetime(2027, 3, 2, 12, tzinfo=UTC)
    picture = ready_picture([10, 20, 100, 190, 300, NEVER], due, CLOCK)
    monday, tuesday, thursday = picture.bars
    assert (monday.in_time, monday.late) == (HEIGHT, 0)
    assert (tuesday.in_time, tuesday.late, tuesday.late_y) == (HEIGHT / 2, HEIGHT / 2, 0)
    assert (thursday.in_time, thursday.late_y) == (0, HEIGHT / 2)
    assert picture.leaves_x == pytest.approx(WIDTH * 1.5 / 4)
    assert picture.days[1:] == ("Tue 2 Mar 2 times (1 too late)", "Thu 4 Mar once (1 too late)")
    assert picture.said == (
        "Ready Mon 1 Mar 2 times, Tue 2 Mar 2 times (1 too late), Thu 4 Mar once (1 too late); "
        "once not within the plan."
    )


def test_no_run_that_is_ready_has_no_picture():
    assert ready_picture([NEVER], datetime(2027, 3, 2, tzinfo=UTC), CLOCK) is None

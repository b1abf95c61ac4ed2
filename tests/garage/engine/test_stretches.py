"""Stretches of a week that overlap: on one day, by a minute, whichever comes first."""

import pytest

from garage.engine.hours import HoursError, Stretch, check_apart


@pytest.mark.parametrize(
    ("one", "two"), [((0, 60, 120), (0, 120, 180)), ((0, 60, 120), (1, 60, 120)), ((1, 0, 9), (0, 5, 1440))]
)
def test_those_that_touch_or_are_of_two_days_stand_apart(one, two):
    check_apart([Stretch(*one), Stretch(*two)])
    check_apart([Stretch(*two), Stretch(*one)])


@pytest.mark.parametrize("second", [(2, 119, 180), (2, 60, 120), (2, 0, 61)])
def test_by_a_minute_they_overlap(second):
    with pytest.raises(HoursError, match="overlap"):
        check_apart([Stretch(4, 0, 1440), Stretch(2, 60, 120), Stretch(*second)])

"""Today's hours in words."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from garage.engine.tonight import tonight_words, usual_end

ZONE = ZoneInfo("Europe/Lisbon")  # in March as UTC


def at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2027, 3, day, hour, minute, tzinfo=UTC)


@pytest.mark.parametrize(
    ("windows", "words"),
    [
        ([], "not in today"),
        ([(at(2, 9), at(2, 12))], "not in today"),
        ([(at(3, 18), at(3, 22))], "not in today"),
        ([(at(2, 16), at(2, 22))], "in until 22:00"),
        ([(at(2, 9), at(2, 12)), (at(2, 18, 30), at(2, 22, 5))], "in from 18:30 until 22:05"),
        ([(at(2, 16), at(2, 17, 30)), (at(2, 18), at(2, 22))], "in until 17:30, and from 18:00 until 22:00"),
        ([(at(2, 18), at(3, 0))], "in from 18:00 until 24:00"),
        ([(at(2, 16), at(3, 2))], "in until 2:00 tomorrow"),
    ],
)
def test_what_is_left_of_today(windows, words):
    assert tonight_words(windows, at(2, 17), ZONE) == words


@pytest.mark.parametrize(
    ("now", "end"), [(0, 1320), (20 * 60, 1320), (21 * 60 + 1, 1380), (22 * 60, 1380), (1439, 1440)]
)
def test_the_end_that_is_offered_is_an_hour_away_and_by_midnight(now, end):
    assert usual_end(now) == end

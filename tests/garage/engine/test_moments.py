"""Moments in words: as much of the day as the reader needs."""

from datetime import UTC, datetime

import pytest

from garage.engine.moments import clock_words

AT = datetime(2027, 3, 2, 17, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("moment", "words"),
    [
        (datetime(2027, 3, 2, 20, 30, tzinfo=UTC), "20:30"),
        (datetime(2027, 3, 4, 20, 30, tzinfo=UTC), "Thu 20:30"),
        (datetime(2027, 3, 7, 20, 30, tzinfo=UTC), "Sun 20:30"),
        (datetime(2027, 3, 8, 0, 30, tzinfo=UTC), "Mon 8 Mar 00:30"),
        (datetime(2027, 2, 24, 20, 30, tzinfo=UTC), "Wed 24 Feb 20:30"),
        (datetime(2027, 3, 9, 20, 30, tzinfo=UTC), "Tue 9 Mar 20:30"),
        (datetime(2025, 3, 4, 20, 30, tzinfo=UTC), "4 Mar 2025 20:30"),
    ],
)
def test_the_clock_alone_the_day_the_date_the_year(moment, words):
    assert clock_words(moment, AT, UTC) == words

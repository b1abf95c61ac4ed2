"""Until when a part may come, in words: ordered or not, with the days it takes, and too late."""

from datetime import date

import pytest

from builds.needs.pages.by_day import by_day
from builds.work.models.need import Need

TODAY, THURSDAY = date(2027, 3, 2), date(2027, 3, 4)


@pytest.mark.parametrize(
    "given, last, words, act_on, late",
    [
        ({}, THURSDAY, "must be here by Thu 4 Mar", THURSDAY, False),
        ({}, TODAY, "must be here today, Tue 2 Mar", TODAY, False),
        ({}, date(2027, 3, 1), "too late: it had to be here by Mon 1 Mar", TODAY, True),
        ({"lead_days": 0}, THURSDAY, "order by Thu 4 Mar, here by Thu 4 Mar", THURSDAY, False),
        ({"lead_days": 2}, THURSDAY, "order today, Tue 2 Mar, here by Thu 4 Mar", TODAY, False),
        (
            {"lead_days": 3},
            THURSDAY,
            "too late to order: it takes 3 days and must be here by Thu 4 Mar",
            TODAY,
            True,
        ),
        (
            {"lead_days": 1},
            TODAY,
            "too late to order: it takes 1 day and must be here today, Tue 2 Mar",
            TODAY,
            True,
        ),
        ({"expected_on": THURSDAY}, THURSDAY, "may come until Thu 4 Mar", THURSDAY, False),
        ({"expected_on": THURSDAY, "lead_days": 9}, THURSDAY, "may come until Thu 4 Mar", THURSDAY, False),
        (
            {"expected_on": date(2027, 3, 5)},
            THURSDAY,
            "comes too late: it must be here by Thu 4 Mar",
            TODAY,
            True,
        ),
        # What should have come and has not is no order to rely on.
        ({"expected_on": date(2027, 3, 1)}, THURSDAY, "must be here by Thu 4 Mar", THURSDAY, False),
    ],
)
def test_words(given, last, words, act_on, late):
    said = by_day(Need(what="front hub", **given), last, TODAY)
    assert (said.words, said.act_on, said.late) == (words, act_on, late)


def test_without_a_day_nothing_is_said():
    assert by_day(Need(what="front hub", lead_days=3), None, TODAY) is None

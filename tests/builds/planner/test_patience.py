"""A search is given up once its second half has bought less than a tenth of a per cent, and not before."""

import pytest

from builds.planner.patience import LEAST, Patience

HALF_WAY = (1.0, 0.0, 2.0, 3.0, 1000.0, 50_000.0)


def over(then, seconds=10.0):
    patience = Patience()
    assert not patience.is_over(1.0, (2.0, *HALF_WAY[1:]))
    patience.is_over(seconds / 2, HALF_WAY)
    return patience.is_over(seconds, then)


@pytest.mark.parametrize(
    ("then", "done"),
    [
        (HALF_WAY, True),
        ((1.0, 0.0, 2.0, 2.0, 1000.0, 50_000.0), False),
        ((1.0, 0.0, 2.0, 3.0, 999.0, 50_000.0), True),
        ((1.0, 0.0, 2.0, 3.0, 998.9, 50_000.0), False),
        ((1.0, 0.0, 2.0, 3.0, 1000.0, 49_950.0), True),
        ((1.0, 0.0, 2.0, 3.0, 1000.0, 49_949.0), False),
        # A better end of the cars may cost a little of the sum.
        ((1.0, 0.0, 2.0, 3.0, 998.0, 50_010.0), False),
    ],
)
def test_what_the_second_half_bought(then, done):
    assert over(then) is done


def test_no_search_is_given_up_at_once():
    assert not over(HALF_WAY, LEAST - 0.1)
    assert over(HALF_WAY, LEAST)


def test_the_latest_end_alone():
    patience = Patience()
    assert [patience.is_over(at, score) for at, score in ((2.0, (80.0,)), (4.0, (79.0,)), (8.0, (79.0,)))] == [
        False,
        False,
        True,
    ]

"""Links between what is still to do, through what is over, and no others."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builds.readings.engine.what_leads import Order, between


@pytest.mark.parametrize(
    ("links", "ends", "kept"),
    [
        ([(1, 2), (2, 3)], {1, 3}, [(1, 2), (2, 3)]),
        ([(1, 2), (2, 3), (3, 4)], {1, 2}, [(1, 2)]),
        ([(8, 9), (9, 1), (1, 2)], {1, 2}, [(1, 2)]),
        ([(1, 5), (6, 2)], {1, 2}, []),
    ],
)
def test_what_lies_between_them_is_kept(links, ends, kept):
    assert between(links, ends) == kept


PAIRS = st.lists(st.tuples(st.integers(0, 9), st.integers(10, 19)) | st.tuples(st.integers(0, 4), st.integers(5, 9)))


@given(PAIRS, st.sets(st.integers(0, 19)))
def test_what_comes_after_what_among_them_is_the_same(links, ends):
    whole, short = Order(links), Order(between(links, ends))
    assert all(whole.leads(one, other) == short.leads(one, other) for one in ends for other in ends)

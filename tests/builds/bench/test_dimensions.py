"""Dimensions of a car: every one that a sum asks for is in the table, and the work that changes it is known."""

import pytest

from builds.bench.catalogue import SUMS
from builds.bench.dimensions import AXLES, DIMENSIONS
from builds.readings.engine.kinds_of_work import KINDS

pytestmark = pytest.mark.plain
ASKED = {ask.figure.format(axle=axle) for one in SUMS.values() for ask in one.asks for axle, _ in AXLES if ask.figure}


def test_the_table_holds_what_sums_ask_for_and_no_more():
    assert set(DIMENSIONS) == ASKED


@pytest.mark.parametrize("slug", DIMENSIONS)
def test_what_changes_a_dimension_is_a_kind_of_work(slug):
    assert set(DIMENSIONS[slug].changed_by) <= set(KINDS)


@pytest.mark.parametrize("asked", SUMS.values(), ids=SUMS.keys())
def test_a_sum_asks_for_a_dimension_once(asked):
    figures = [ask.figure for ask in asked.asks if ask.figure]
    assert len(figures) == len(set(figures))


def test_one_dimension_has_one_unit():
    units = {}
    for asked in SUMS.values():
        for ask in asked.asks:
            if ask.figure:
                assert units.setdefault(ask.figure, ask.unit) == ask.unit, ask.figure

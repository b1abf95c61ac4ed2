"""Every value of the bench through the same door as the page and the terminal; bump steer has a file of its own."""

from collections import Counter

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import work_out
from tests.published.bench import VALUES
from tests.published.bench.value import Value

pytestmark = pytest.mark.plain
# So many figures there are at least, by topic: a value that gets lost is missed.
AT_LEAST = {"1": 40, "2": 87, "4": 41, "5": 43, "6": 136, "7": 60, "8": 34, "9": 21}


def shown(value: Value) -> str:
    return f"{value.topic}-{value.sum}-{next(iter(value.answers))}"


@pytest.mark.parametrize("value", VALUES, ids=shown)
def test_a_value_comes_out_as_published(value):
    worked, errors = work_out(sum_called(value.sum), value.typed)
    assert not errors
    assert value.source
    for slug, figure in value.answers.items():
        assert worked.value(slug) == pytest.approx(figure, rel=1e-6, abs=value.within), slug


def test_none_is_missing():
    counted = Counter(value.topic for value in VALUES for _ in value.answers)
    assert {topic: counted[topic] for topic in AT_LEAST if counted[topic] < AT_LEAST[topic]} == {}

"""How many jobs come before one and after it, in a line."""

import pytest

from builds.jobs.pages.order import order_words


@pytest.mark.parametrize(
    ("first", "after", "said"),
    [
        (0, 0, "waits for nothing, and nothing waits for it"),
        (1, 0, "waits for 1 job, and nothing waits for it"),
        (0, 1, "waits for nothing, and 1 job waits for it"),
        (2, 3, "waits for 2 jobs, and 3 jobs wait for it"),
    ],
)
def test_it_is_said_as_one_would(first, after, said):
    assert order_words(first, after) == said

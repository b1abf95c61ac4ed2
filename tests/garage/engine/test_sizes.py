"""Sizes in words, at the bounds of their units."""

import pytest

from garage.engine.sizes import size_words


@pytest.mark.parametrize(("size", "words"), [
    (0, "0 kB"), (1, "1 kB"), (38_000, "38 kB"), (38_001, "39 kB"), (999_999, "1000 kB"), (1_000_000, "1.0 MB"),
    (999_900_000, "999.9 MB"), (1_000_000_000, "1.0 GB"), (70_586_000_000, "70.6 GB"),
])  # fmt: skip
def test_a_size_in_words(size, words):
    assert size_words(size) == words

"""The band for the number of runs against published intervals."""

import pytest

from builds.odds.answer import wilson


# Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, the score method without
# correction for continuity; values from memory, and the closed form gives them.
@pytest.mark.parametrize(
    ("count", "runs", "low", "high"),
    [
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0, 0.1611),
        (1, 29, 0.0061, 0.1718),
    ],
)
def test_published_intervals(count, runs, low, high):
    assert wilson(count, runs) == pytest.approx((low, high), abs=5e-5)

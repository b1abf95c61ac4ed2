"""What is typed into a sum is read as a reading would be, with the same words beside the figure."""

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import read

pytestmark = pytest.mark.plain


@pytest.mark.parametrize(("typed", "degrees"), [("0°10'", 10 / 60), ("-6'", -0.1), ("1.5 mm at 470 mm", 0.18286)])
def test_an_angle_in_minutes_or_across_a_rim_is_degrees(typed, degrees):
    given = read(sum_called("toe-units"), {"angle": typed, "across": "470"})
    assert given.figures["angle"] == pytest.approx(degrees, abs=1e-5)

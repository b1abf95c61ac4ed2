"""Corner weights against worked figures.

Source of the definitions: Milliken & Milliken, *Race Car Vehicle Dynamics*, chapter 18 (from memory); the figures of
the car are worked by statics and, where springs count, again by least energy.
"""

import pytest

from builds.bench.weights.corner_weights import Corners, centre

pytestmark = pytest.mark.plain
CAR = Corners(312.5, 298.0, 287.0, 302.5)


def test_shares_of_a_car():
    assert CAR.total == 1200
    assert CAR.front == pytest.approx(50.8750)
    assert CAR.left == pytest.approx(49.95833333)
    assert CAR.cross == pytest.approx(48.75)
    assert CAR.difference == pytest.approx(-30)


def test_where_the_centre_of_gravity_lies():
    assert centre(CAR, 2575, 1475, 1480) == pytest.approx((1264.96875, 0.64687), abs=1e-4)
    assert centre(Corners(300, 300, 250, 250), 2500, 1450, 1450) == pytest.approx((1136.363636, 0))

"""Shares, total toe and thrust against worked examples computed twice by independent methods."""

import pytest

from builds.readings.engine.derived import derived, thrust, total_toe, weight_shares
from builds.readings.engine.fields import fields_of
from builds.readings.engine.figures import parse_figure
from garage.engine.units import QuantityError

# Four scales in grams. Formulas: statics of four supports, from memory; the numbers worked by hand
# and repeated with another program.
WEIGHTS = [
    ((312_500, 298_000, 287_000, 302_500), 1_200_000, 50.8750, 49.9583, 48.7500),
    ((300_000, 300_000, 250_000, 250_000), 1_100_000, 54.5455, 50.0, 50.0),
]


@pytest.mark.parametrize(("scales", "total", "front", "left", "cross"), WEIGHTS)
def test_weight_shares(scales, total, front, left, cross):
    found = weight_shares(*scales)
    assert found.total == total
    assert float(found.front) == pytest.approx(front, abs=5e-5)
    assert float(found.left) == pytest.approx(left, abs=5e-5)
    assert float(found.cross) == pytest.approx(cross, abs=5e-5)


def test_scales_that_read_nothing_have_no_shares():
    with pytest.raises(ValueError, match="no shares"):
        weight_shares(0, 0, 0, 0)
    assert derived("corner_weights", dict.fromkeys(("fl", "fr", "rl", "rr"), 0)) == ()


# Thousandths of a degree. Thrust: half of left less right, positive to the right (a workshop
# manual's definition; another maker's has the opposite sign). Total: ISO 8855:2011 7.1.7.
@pytest.mark.parametrize(("left", "right", "total", "angle"), [(200, 50, 250, 75), (100, -100, 0, 100)])
def test_total_toe_and_thrust(left, right, total, angle):
    assert total_toe(left, right) == total
    assert thrust(left, right) == angle


def test_the_side_that_the_thrust_points_to_is_named():
    right = derived("toe_rear", {"rl": 200, "rr": 50})
    left = derived("toe_rear", {"rl": 50, "rr": 200})
    straight = derived("toe_rear", {"rl": 100, "rr": 100})
    assert [(rows[1].label, rows[1].amount) for rows in (right, left, straight)] == [
        ("Thrust angle, pointing right", 75),
        ("Thrust angle, pointing left", 75),
        ("Thrust angle, pointing straight on", 0),
    ]


def test_the_diagonal_of_the_cross_is_named_and_half_a_reading_gives_nothing():
    scales = dict(zip(("fl", "fr", "rl", "rr"), WEIGHTS[0][0], strict=True))
    labels = [row.label for row in derived("corner_weights", scales)]
    assert labels[-1] == "Cross, front right and rear left"
    assert derived("corner_weights", {**scales, "rr": None}) == ()
    assert derived("toe_front", {"fl": 10}) == ()


# A wheel's toe from a difference and the diameter it was read across: the arcsine, worked by two
# programs; the last is the published 0.138 for an eighth of an inch in all on a 26 in tyre.
@pytest.mark.parametrize(
    ("typed", "degrees"),
    [
        ("1,5 mm at 470 mm", 0.18286),
        ("1 mm at 431.8 mm", 0.13269),
        ("1 mm at 630mm", 0.09095),
        ("-0.5 mm at 470 mm", -0.06095),
        ("12 mm at 450 mm", 1.52807),
        ("1/16 in at 26 in", 0.13773),
    ],
)
def test_an_angle_from_a_difference(typed, degrees):
    toe = fields_of("toe_front")[0]
    assert parse_figure(toe, typed, "metric") == pytest.approx(degrees * 1000, abs=0.51)


@pytest.mark.parametrize("typed", ["5 mm at 0 mm", "5 mm at 4 mm", "5 mm at x mm", "5 mm at"])
def test_a_difference_that_no_wheel_has_is_refused(typed):
    with pytest.raises(QuantityError):
        parse_figure(fields_of("toe_front")[0], typed, "metric")

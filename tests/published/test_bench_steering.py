"""The steering linkage against worked figures.

The definition of Ackermann geometry is that of ISO 8855:2011 7.1.9; the cotangent relation Jazar,
*Vehicle Dynamics*, chapter 7 (from memory). Lock angles were found again by bisection on the rod's length.
"""

import dataclasses
import math

import pytest

from builds.bench.steering.linkage import (
    LEFT,
    RIGHT,
    Linkage,
    OverCentreError,
    ackermann_by_angle,
    ackermann_by_cotangent,
    ideal_outer,
    overall_ratio,
    rack_force,
    rim_force,
)

pytestmark = pytest.mark.plain
BASE = 2550
S1 = Linkage(1400, 125, 8, 640, 100)
S2 = Linkage(1400, 95, 8, 640, 100)
S3 = Linkage(1400, 95, 8, 652, 100)
S4 = Linkage(1400, 95, 8, 640, 80)
S5 = Linkage(1420, 120, -12, 660, 118, forward=True)
S6 = Linkage(1400, 95, 0, 640, 95)


@pytest.mark.parametrize(
    ("linkage", "rod"),
    [(S1, 363.3825), (S2, 366.8264), (S3, 360.8272), (S4, 367.0485), (S5, 404.9499), (S6, 380.0)],
)
def test_length_of_the_tie_rod(linkage, rod):
    assert linkage.rods[LEFT] == pytest.approx(rod, abs=1e-4)
    assert linkage.rods[RIGHT] == pytest.approx(rod, abs=1e-4)


@pytest.mark.parametrize(
    ("linkage", "travel", "inner", "outer", "by_angle", "by_cotangent", "mus", "margin"),
    [
        (S1, 30, 14.0678, 13.7689, 18.168, 16.424, (109.569, 80.386), 70.431),
        (S1, 65, 32.7875, 30.6096, 29.673, 25.103, (131.632, 64.963), 48.368),
        (S2, 30, 19.2535, 18.1669, 37.231, 33.598, (119.682, 80.847), 60.318),
        (S2, 65, 51.4880, 40.6688, 72.841, 67.049, (157.601, 60.461), 22.399),
        (S3, 65, 51.5841, 40.6630, 73.328, 67.590, (157.855, 60.518), 22.145),
        (S6, 65, 43.9497, 42.4988, 12.376, 9.836, (137.964, 51.267), 42.036),
    ],
)
def test_lock_angles(linkage, travel, inner, outer, by_angle, by_cotangent, mus, margin):
    for way in (LEFT, RIGHT):
        turned = linkage.turned(way, travel)
        assert turned == pytest.approx((inner, outer), abs=1e-4)
        assert ackermann_by_angle(*turned, 1400, BASE) == pytest.approx(by_angle, abs=1e-3)
        assert ackermann_by_cotangent(*turned, 1400, BASE) == pytest.approx(by_cotangent, abs=1e-3)
        moved = linkage.towards(way) * travel
        found = linkage.transmission(way, moved), linkage.transmission(-way, moved)
        assert found == pytest.approx(mus, abs=1e-3)
        assert linkage.margin(moved) == pytest.approx(margin, abs=1e-3)


@pytest.mark.parametrize(
    ("linkage", "toggle", "at_40", "at_30", "at_20", "gain"),
    [
        (S1, 98.035, 75.26, 85.13, 92.27, 0.45864),
        (S2, 70.870, 52.41, 60.39, 66.18, 0.61043),
        (S3, 70.723, 52.31, 60.27, 66.05, 0.61045),
        (S6, 85.403, 66.89, 74.89, 80.70, 0.60311),
    ],
)
def test_over_centre(linkage, toggle, at_40, at_30, at_20, gain):
    assert linkage.toggle(LEFT) == pytest.approx(toggle, abs=1e-3)
    found = [linkage.travel_at_margin(LEFT, degrees) for degrees in (40, 30, 20)]
    assert found == pytest.approx([at_40, at_30, at_20], abs=0.006)
    assert math.degrees(linkage.gain(LEFT, 0)) == pytest.approx(gain, abs=1e-5)


def test_a_rack_longer_than_the_linkage_locks_over_centre():
    with pytest.raises(OverCentreError):
        S3.turned(LEFT, 71)
    # the outer wheel would have got there
    assert -S3.angle(RIGHT, -71) == pytest.approx(-44.8901, abs=1e-4)


def test_ratio_and_effort():
    def at(linkage, travel):
        moved = linkage.towards(LEFT) * travel
        force = rack_force(150, (linkage.gain(LEFT, moved), linkage.gain(RIGHT, moved)))
        return force, rim_force(force, 50, 175)

    assert overall_ratio(S1.gain(LEFT, 0), 50) == pytest.approx(15.6985, abs=1e-4)
    assert overall_ratio(S2.gain(LEFT, 0), 50) == pytest.approx(11.7950, abs=1e-4)
    assert at(S1, 0)[1] == pytest.approx(109.20, abs=0.005)
    assert at(S2, 0)[1] == pytest.approx(145.34, abs=0.005)
    assert at(S1, 65)[1] == pytest.approx(133.17, abs=0.005)
    assert at(S2, 65) == pytest.approx((5914, 268.94), abs=0.5)


@pytest.mark.parametrize(
    ("inner", "kingpins", "wheelbase", "outer"),
    [(20, 1524, 2540, 16.63259), (38, 1400, 2550, 28.66801), (45, 1450, 2600, 32.69946), (55, 1500, 2600, 38.06113)],
)
def test_ideal_pairs(inner, kingpins, wheelbase, outer):
    assert ideal_outer(inner, kingpins, wheelbase) == pytest.approx(outer, abs=1e-5)
    assert ackermann_by_angle(inner, outer, kingpins, wheelbase) == pytest.approx(100, abs=1e-4)
    assert ackermann_by_cotangent(inner, outer, kingpins, wheelbase) == pytest.approx(100, abs=1e-4)


@pytest.mark.parametrize(("arm", "travel", "degrees"), [(125, 65, 31.33225), (95, 65, 43.17355), (95, 71, 48.36293)])
def test_a_very_long_tie_rod_along_the_rack_is_a_sine(arm, travel, degrees):
    far = Linkage(2e9, arm, 0, 1.0, arm)
    assert far.turned(LEFT, travel)[0] == pytest.approx(degrees, abs=1e-4)


@pytest.mark.parametrize(
    ("linkage", "by_gain", "longer", "shorter"), [(S1, 0.68944, 0.68915, 0.68978), (S2, 0.91576, 0.91461, 0.91700)]
)
def test_a_turn_of_the_tie_rod(linkage, by_gain, longer, shorter):
    assert math.degrees(1.5 * linkage.rod_gain(LEFT, 0)) == pytest.approx(by_gain, abs=1e-5)
    assert abs(dataclasses.replace(linkage, longer=1.5).angle(LEFT, 0)) == pytest.approx(longer, abs=1e-5)
    assert abs(dataclasses.replace(linkage, longer=-1.5).angle(LEFT, 0)) == pytest.approx(shorter, abs=1e-5)

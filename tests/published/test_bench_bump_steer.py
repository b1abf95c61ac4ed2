"""Bump steer against worked curves and cases that must be exactly zero.

Signs ISO 8855. The curves were worked with constraint equations (residuals below 1e-12 mm) and again with another
formulation; the zero cases follow from geometry alone.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import work_out
from builds.bench.suspension.bump import Corner, inner_height_without_slope

pytestmark = pytest.mark.plain
B = Corner(
    lower=((160, 330, 190), (-140, 330, 190), (10, 700, 170)),
    upper=((120, 400, 440), (-120, 400, 440), (-15, 660, 460)),
    rod=((-90, 330, 190), (-110, 700, 170)),
    wheel=(0, 750, 300),
)
C = Corner(
    lower=((170, 340, 185), (-150, 330, 195), (8, 705, 165)),
    upper=((110, 410, 445), (-130, 400, 435), (-18, 665, 455)),
    rod=((-115, 345, 225), (-125, 690, 210)),
    wheel=(0, 752, 300),
)


def test_a_rod_hidden_behind_the_lower_arm_steers_nothing():
    for pose, camber in zip(B.sweep([-60, -25, 25, 60]), (1.168925, 0.568042, -0.686053, -1.861186), strict=True):
        assert pose.toe == pytest.approx(0, abs=1e-9)
        assert pose.camber == pytest.approx(camber, abs=1e-6)


@pytest.mark.parametrize(
    ("travel", "toe", "camber", "caster", "inclination"),
    [
        (-60, 0.283227, 1.113007, 4.2985, 6.7100),
        (-50, 0.216637, 0.973968, 4.4392, 6.8549),
        (-25, 0.085610, 0.544307, 4.7850, 7.2979),
        (0, 0, 0, 5.1232, 7.8533),
        (10, -0.022597, -0.250068, None, None),
        (25, -0.044669, -0.660877, None, None),
        (50, -0.051021, -1.445745, None, None),
        (60, -0.043127, -1.797124, None, None),
    ],
)
def test_a_general_corner(travel, toe, camber, caster, inclination):
    (pose,) = C.sweep([travel])
    assert (pose.toe, pose.camber) == pytest.approx((toe, camber), abs=1e-6)
    if caster is not None:
        assert (pose.caster, pose.inclination) == pytest.approx((caster, inclination), abs=1e-4)


def test_its_links_and_its_slope():
    lengths = list(C.lengths().values())
    assert lengths == pytest.approx([399.836216, 408.030636, 285.497811, 288.390360, 345.470693], abs=1e-6)
    assert C.slope() == pytest.approx(-0.0025825, abs=1e-7)
    assert inner_height_without_slope(C) == pytest.approx(2.11334, abs=1e-4)
    level = C.raised(inner=2.11334)
    assert [pose.toe for pose in level.sweep([-50, 50])] == pytest.approx([0.082996, 0.075816], abs=2e-5)


def test_a_parallelogram_steers_nothing():
    flat = Corner(
        lower=((150, 300, 200), (-150, 300, 200), (0, 700, 200)),
        upper=((150, 300, 420), (-150, 300, 420), (0, 700, 420)),
        rod=((-100, 300, 260), (-100, 700, 260)),
        wheel=(0, 750, 300),
    )
    for pose in flat.sweep([-70, -10, 30, 70]):
        assert (pose.toe, pose.camber) == pytest.approx((0, 0), abs=1e-9)


STRUT = Corner(
    lower=((160, 330, 180), (-160, 330, 180), (0, 700, 170)),
    strut=((0, 600, 780), (0, 690, 300)),
    rod=((-90, 330, 180), (-110, 700, 170)),
    wheel=(0, 750, 300),
)


def test_a_strut_with_its_rod_hidden_behind_the_arm_steers_nothing():
    cambers = []
    for pose in STRUT.sweep([-60, -20, 20, 60]):
        assert pose.toe == pytest.approx(0, abs=1e-9)
        cambers.append(pose.camber)
    assert len(set(cambers)) == 4


@given(st.floats(-70, 70), st.floats(-30, 30))
def test_links_keep_their_lengths_and_the_wheel_rises_by_what_was_asked(travel, raised):
    """A second look that knows nothing of how it was solved: distances of the moved points."""
    for corner in (C.raised(inner=raised), STRUT.raised(inner=raised)):
        pose, angle = corner.pose(travel)
        before, (joint, held, rod) = corner._moved(angle)
        assert math.dist(joint, corner.lower[0]) == pytest.approx(math.dist(corner.lower[2], corner.lower[0]), abs=1e-9)
        assert math.dist(rod, corner.rod[0]) == pytest.approx(math.dist(*corner.rod), abs=1e-9)
        assert math.dist(rod, joint) == pytest.approx(math.dist(corner.rod[1], corner.lower_joint), abs=1e-9)
        assert math.dist(held, joint) == pytest.approx(math.dist(before[1], before[0]), abs=1e-9)
        assert corner._travel(angle) == pytest.approx(travel, abs=1e-9)
        assert abs(pose.toe) < 10


def test_a_right_wheel_is_its_mirror():
    asked = sum_called("bump-steer-wishbone")
    mirrored = "\n".join(
        " ".join([*line.split()[:-2], f"-{line.split()[-2]}", line.split()[-1]])
        for line in asked.example["points"].split("\n")
    )
    left, _ = work_out(asked, asked.example)
    right, errors = work_out(asked, asked.example | {"points": mirrored})
    assert not errors
    assert left.table.rows == right.table.rows


EXAMPLE = sum_called("bump-steer-wishbone").example["points"]
SHORT = EXAMPLE.replace("170 340", "170 640").replace("-150 330", "-150 640")


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"points": "lower front 1 2 3"}, "points"),
        ({"points": "lower front 1 2"}, "points"),
        ({"points": "tyre 1 2 3"}, "points"),
        ({"points": "lower front 1 x 3"}, "points"),
        ({"points": "lower front 1 2 99999"}, "points"),
        ({"points": SHORT, "travel": "200"}, "travel"),
        ({"measured": "track rod 300"}, "measured"),
    ],
)
def test_what_cannot_be_is_one_sentence_at_its_field(change, field):
    asked = sum_called("bump-steer-wishbone")
    worked, errors = work_out(asked, asked.example | change)
    assert worked is None
    assert list(errors) == [field]


@pytest.mark.parametrize(("measured", "told"), [("tie rod 346.4", False), ("tie rod 346.5", True)])
def test_a_link_that_measures_otherwise_is_told(measured, told):
    asked = sum_called("bump-steer-wishbone")
    worked, _ = work_out(asked, asked.example | {"measured": measured})
    assert any("measure again" in said for said in worked.warnings) == told

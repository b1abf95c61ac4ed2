"""A figure on its bound is signed, the one beyond is not; read in the point's unit or with another beside it."""

import pytest

from builds.steps.actions.hold_points import refuse_value
from builds.work.models.hold_point import HoldPoint


def point(**more):
    return HoldPoint(
        **{"what": "Nut", "asks": "torque", "unit": "N·m", "low_milli": 80_000, "high_milli": 90_000, **more}
    )


@pytest.mark.parametrize(("value", "signed"), [
    ("80", True), ("90", True), ("79.999", False), ("90.001", False), ("85", True), ("85 Nm", True),
    ("62 lb ft", True), ("58 lb ft", False), ("67 lb ft", False), ("", False), ("tight", False), ("85 mm", False),
])  # fmt: skip
def test_within_its_bounds(value, signed):
    assert (refuse_value(point(), value) is None) is signed


@pytest.mark.parametrize(("bounds", "value", "signed"), [
    ({"low_milli": None}, "-5", True), ({"low_milli": None}, "90.001", False),
    ({"high_milli": None}, "500", True), ({"high_milli": None}, "79.999", False),
    ({"unit": "", "low_milli": None, "high_milli": None}, "by Otto, with dye", True),
    ({"asks": "", "unit": "", "low_milli": None, "high_milli": None}, "", True),
])  # fmt: skip
def test_with_one_bound_or_none(bounds, value, signed):
    assert (refuse_value(point(**bounds), value) is None) is signed


def test_what_is_beyond_is_told_with_the_unit_it_was_typed_in():
    assert refuse_value(point(), "95").startswith("95 N·m is not ")
    assert refuse_value(point(), "95 Nm").startswith("95 Nm is not ")

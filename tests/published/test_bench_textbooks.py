"""Springs, brakes, gearing, cure and dew point.

Sources: k MR² and √(k/m)/2π Gillespie, *Fundamentals of Vehicle Dynamics*, chapter 5; brakes Limpert, *Brake Design and
Safety*; both from memory, their figures worked by hand. Dew points: Magnus, constants of WMO; cure: twice for 10 °C.
"""

import math

import pytest

from builds.bench.brakes.brake_bias import Axle, axle_torque, line_pressure
from builds.bench.catalogue import sum_called
from builds.bench.drive.gearing import speed
from builds.bench.frame.read import work_out
from builds.bench.paint.cure_time import cure_hours
from builds.bench.suspension.spring_frequency import frequency, in_series, rate_for, wheel_rate

pytestmark = pytest.mark.plain


def test_springs():
    assert wheel_rate(50, 0.9) == pytest.approx(40.5)
    assert in_series(30, 60) == pytest.approx(20)
    # 1 N/mm under 1000/(2π)² kg swings once a second
    assert frequency(1, 1000 / (2 * math.pi) ** 2) == pytest.approx(1)
    assert rate_for(frequency(31.4, 265), 265) == pytest.approx(31.4)


def test_brakes():
    # 2000 N on 20 mm: 314.159 mm², 6.3662 MPa
    assert line_pressure(2000, 20) == pytest.approx(6.3662, abs=1e-4)
    # one 40 mm piston a side: 8000 N of clamp; 2 × 2 × 0.4 × 8000 N × 0.12 m
    assert axle_torque(Axle(20, 40, 1, 120, 0.4), 2000) == pytest.approx(1536)
    # a bore 10 % larger gives 1/1.21 of it
    assert axle_torque(Axle(22, 40, 1, 120, 0.4), 2000) == pytest.approx(1536 / 1.21)


def test_bias_of_equal_axles_is_the_bar():
    same = {
        f"{end}_{name}": value
        for end in ("front", "rear")
        for name, value in (("master", "20"), ("piston", "40"), ("pistons", "1"), ("radius", "120"))
    }
    typed = same | {"foot": "400", "pedal": "5", "bar": "60", "tyre": "300", "mass": "1000"}
    found, errors = work_out(sum_called("brake-bias"), typed)
    assert not errors
    assert found.value("bias") == pytest.approx(60)


def test_pedal_travel_is_that_of_both_pads_whichever_caliper():
    """Of a floating one the one piston does the work of both: 2 × 1809.56 mm² × 2 mm over 285.02 mm², five to one.

    A mm of that piston is half a mm at each pad, and half the travel: 63.5 mm.
    """
    same = {
        f"{end}_{name}": value
        for end in ("front", "rear")
        for name, value in (("master", "19.05"), ("piston", "48"), ("pistons", "1"), ("radius", "120"))
    }
    found, errors = work_out(sum_called("brake-bias"), same | {"foot": "400", "pedal": "5", "tyre": "300", "mass": "1"})
    assert not errors
    assert found.value("front_travel") == pytest.approx(2 * 63.49, abs=0.01)
    (answer,) = (one for one in found.answers if one.slug == "front_travel")
    assert answer.label == "Pedal travel for 1 mm at each front pad"


def test_gearing():
    # 6000 turns a minute over 4.0 in a gear of 1: 1500 turns of a tyre that rolls 2 m: 3 km a minute
    assert speed(6000, 1, 4, 2000) == pytest.approx(180)
    typed = {"gears": "2 1", "final": "4", "most": "6000", "tyre": str(1000 / math.pi)[:12]}
    found, errors = work_out(sum_called("gearing"), typed)
    assert not errors
    assert found.value("top") == pytest.approx(180)
    assert found.table.rows[0][4] == 3000


@pytest.mark.parametrize("gears", ["1 2", "3 3", "x", "", "0.05", "9 8 7 6 5 4 3 2 1", "3,6,2"])
def test_gears_that_are_none(gears):
    found, errors = work_out(sum_called("gearing"), {"gears": gears, "final": "4", "most": "6000", "tyre": "300"})
    assert found is None
    assert list(errors) == ["gears"]


@pytest.mark.parametrize(
    ("degrees", "factor", "hours"),
    [
        (23, 2, 12.996),
        (15, 2, 22.627),
        (12, 2, 27.858),
        (10, 2, 32.0),
        (8, 2, 36.758),
        (10, 1.8, 28.8),
        (10, 2.5, 40.0),
    ],
)
def test_cure(degrees, factor, hours):
    assert cure_hours(16, 20, degrees, factor) == pytest.approx(hours, abs=1e-3)


def test_below_its_least_temperature_it_does_not_cure():
    typed = {"hours": "16", "at": "20", "least": "10"}
    assert work_out(sum_called("cure-time"), typed | {"degrees": "10"})[0].value("hours") == pytest.approx(32)
    assert list(work_out(sum_called("cure-time"), typed | {"degrees": "9.9"})[1]) == ["degrees"]


@pytest.mark.parametrize(
    ("air", "humid", "dew"),
    [("20", "60", 11.9955), ("20", "50", 9.2552), ("10", "80", 6.7060), ("5", "85", 2.6862), ("30", "55", 19.9719)],
)
def test_dew_point(air, humid, dew):
    found, _ = work_out(sum_called("dew-point"), {"air": air, "humid": humid})
    assert found.value("dew") == pytest.approx(dew, abs=1e-4)
    assert found.value("least") == pytest.approx(dew + 3, abs=1e-4)


@pytest.mark.parametrize(("metal", "warns"), [("13.74", True), ("13.75", False)])
def test_metal_three_degrees_above_the_dew_point(metal, warns):
    """16 °C at 71 % has its dew point at 10.7408 °C."""
    found, _ = work_out(sum_called("dew-point"), {"air": "16", "humid": "71", "metal": metal})
    assert bool(found.warnings) == warns

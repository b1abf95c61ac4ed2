"""The bench against programs of others: an optimiser, a root finder, a library of units, published steam tables."""

import math

import iapws
import pint
import pytest
from scipy import optimize

from builds.bench.catalogue import sum_called
from builds.bench.cooling.boiling import boiling_water
from builds.bench.frame.read import work_out
from builds.bench.steering.linkage import LEFT, Linkage
from builds.bench.weights.springs_model import GRAVITY, Stance, respond
from garage.engine.units import UNITS

pytestmark = pytest.mark.plain


@pytest.mark.parametrize("perches", [(5.0, 0.0, 0.0, 0.0), (0.0, -3.0, 2.0, 0.0)])
@pytest.mark.parametrize("mass", [(0.0, 0.0, 0.0), (60.0, 1350.0, -360.0), (-14.0, 3000.0, 0.0)])
def test_loads_are_those_of_the_least_energy(perches, mass):
    rates = (35.0, 35.0, 30.0, 30.0)
    stance = Stance(2575, 1475, 1480, rates)
    kilograms, x, y = mass

    def energy(q):
        sinks = [q[0] + q[1] * px / 1000 + q[2] * py / 1000 for px, py in stance.places]
        springs = sum(rate * (sink + perch) ** 2 / 2 for rate, sink, perch in zip(rates, sinks, perches, strict=True))
        return springs - kilograms * GRAVITY * (q[0] + q[1] * x / 1000 + q[2] * y / 1000)

    best = optimize.minimize(energy, [0.0, 0.0, 0.0], method="BFGS", options={"gtol": 1e-10}).x
    sinks = [best[0] + best[1] * px / 1000 + best[2] * py / 1000 for px, py in stance.places]
    change = respond(stance, perches=perches, mass=kilograms, x=x, y=y)
    assert change.sinks == pytest.approx(sinks, abs=1e-4)
    loads = [rate * (sink + perch) for rate, sink, perch in zip(rates, sinks, perches, strict=True)]
    assert change.loads == pytest.approx(loads, abs=5e-3)


@pytest.mark.parametrize("travel", [5.0, 30.0, 50.0, 65.0])
@pytest.mark.parametrize("arm", [125.0, 95.0])
def test_wheels_turn_as_a_root_finder_has_it(arm, travel):
    linkage = Linkage(1400, arm, 8, 640, 100)
    joint = linkage.joint(LEFT, -travel)

    def off(angle):
        return math.dist(linkage.tip(LEFT, linkage.straight[LEFT] + angle), joint) - linkage.rods[LEFT]

    found = optimize.brentq(off, 0.0, 0.95, xtol=1e-13)
    assert linkage.angle(LEFT, -travel) == pytest.approx(math.degrees(found), abs=1e-7)


CALLED = {
    "°C": "degC",
    "°F": "degF",
    "lbf·ft": "lbf*ft",
    "lbf·in": "lbf*in",
    "N·m": "N*m",
    "kgf·m": "kgf*m",
    "mN·m": "mN*m",
}
CALLED |= {
    "in": "inch",
    "kgf/cm²": "kgf/cm**2",
    "hp": "hp",
    "PS": "metric_horsepower",
    "US gal": "gallon",
    "UK gal": "imperial_gallon",
}
CALLED |= {
    "m³/s": "m**3/s",
    "m³/h": "m**3/h",
    "US gal/min": "gallon/min",
    "CFM": "ft**3/min",
    "mm²": "mm**2",
    "cm²": "cm**2",
}
CALLED |= {"km/h": "km/h", "mph": "mile/hour", "rpm": "revolution/min", "%": "", "m%": "", "°": "", "m°": "", "m°C": ""}
IN = {"length": "m", "mass": "kg", "force": "N", "torque": "N*m", "pressure": "Pa", "spring rate": "N/m", "power": "W"}
IN |= {"volume": "m**3", "flow": "m**3/s", "voltage": "V", "current": "A", "area": "m**2", "speed": "m/s", "time": "s"}


@pytest.fixture(scope="module")
def library():
    return pint.UnitRegistry()


@pytest.mark.parametrize("unit", [unit for unit in UNITS.values() if unit.quantity in IN and unit.symbol != "thou"])
def test_a_unit_is_what_a_library_of_units_has(library, unit):
    known = library.Quantity(1.0, CALLED.get(unit.symbol, unit.symbol)).to(IN[unit.quantity]).magnitude
    assert float(unit.factor) == pytest.approx(known, rel=1e-9)


@pytest.mark.parametrize("megapascals", [0.07, 0.101325, 0.15, 0.2047, 0.3, 1.0])
def test_water_boils_as_the_steam_tables_have_it(megapascals):
    steam = iapws.IAPWS97(P=megapascals, x=0)
    assert boiling_water(megapascals * 1e6) == pytest.approx(steam.T, abs=1e-6)


@pytest.mark.parametrize("travel", [-60, -25, 25, 60])
def test_bump_steer_is_what_a_root_finder_makes_of_the_links(travel):
    """Nine coordinates, nine equations: five links, three lengths within the upright, the wheel's height."""
    asked = sum_called("bump-steer-wishbone")
    worked, _ = work_out(asked, asked.example | {"travel": str(abs(travel)), "shim_inner": "0"})
    lower, upper = ((170, 340, 185), (-150, 330, 195)), ((110, 410, 445), (-130, 400, 435))
    joints = ((8, 705, 165), (-18, 665, 455), (-125, 690, 210))
    inner, wheel = (-115, 345, 225), (0, 752, 300)

    def unit(v):
        return tuple(part / math.hypot(*v) for part in v)

    def less(p, q):
        return tuple(i - j for i, j in zip(p, q, strict=True))

    def dot(p, q):
        return sum(i * j for i, j in zip(p, q, strict=True))

    def frame(a, b, c):
        ex = unit(less(b, a))
        side = less(c, a)
        ey = unit(tuple(s - dot(side, ex) * e for s, e in zip(side, ex, strict=True)))
        return ex, ey, tuple(ex[(i + 1) % 3] * ey[(i + 2) % 3] - ex[(i + 2) % 3] * ey[(i + 1) % 3] for i in range(3))

    def carried(points, arrow):
        parts = [sum(a * e for a, e in zip(arrow, axis, strict=True)) for axis in frame(*joints)]
        return [sum(part * axis[i] for part, axis in zip(parts, frame(*points), strict=True)) for i in range(3)]

    def off(flat):
        points = [tuple(flat[3 * i : 3 * i + 3]) for i in range(3)]
        links = [(points[0], end, joints[0]) for end in lower] + [(points[1], end, joints[1]) for end in upper]
        links.append((points[2], inner, joints[2]))
        pairs = [(0, 1), (0, 2), (1, 2)]
        centre = carried(points, [w - j for w, j in zip(wheel, joints[0], strict=True)])
        return [
            *(math.dist(now, end) - math.dist(was, end) for now, end, was in links),
            *(math.dist(points[i], points[j]) - math.dist(joints[i], joints[j]) for i, j in pairs),
            points[0][2] + centre[2] - wheel[2] - travel,
        ]

    start = [part for joint in joints for part in (joint[0], joint[1], joint[2] + travel)]
    found = optimize.fsolve(off, start, xtol=1e-13)
    arrow = carried([tuple(found[3 * i : 3 * i + 3]) for i in range(3)], (0.0, 1.0, 0.0))
    row = worked.table.rows[0 if travel < 0 else -1]
    assert row[1] == pytest.approx(math.degrees(math.atan2(arrow[0], arrow[1])), abs=1e-6)
    assert row[2] == pytest.approx(-math.degrees(math.asin(arrow[2])), abs=1e-6)

"""Values of the bench that stand between a sum's figures and its answers."""

import math

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.cooling.boiling import ZERO, boiling_water
from builds.bench.cooling.heat import AIR_HEAT, COOLANTS, air_density, air_flow, coolant_flow
from builds.bench.frame.read import work_out
from builds.bench.steering.linkage import RIGHT, Linkage
from builds.bench.weights.cg_height import Lift, cg_height
from builds.bench.weights.springs_model import GRAVITY, Stance, respond
from builds.bench.wiring.copper import area_for_drop
from garage.engine.units import UNITS

pytestmark = pytest.mark.plain
STANCE = Stance(2575, 1475, 1480, (35, 35, 30, 30))


def test_a_perch_of_five_millimetres_in_kilograms():
    """Least energy of four springs, found again with an optimiser."""
    loads = [load / GRAVITY for load in respond(STANCE, perches=(5, 0, 0, 0)).loads]
    assert loads == pytest.approx([4.13310, -4.13310, -4.11913, 4.11913], abs=6e-6)
    cross = 100 * (298 + loads[1] + 287 + loads[2]) / 1200
    assert cross == pytest.approx(48.0623, abs=6e-5)


def test_a_millimetre_of_perch_moves_the_diagonal():
    loads = respond(STANCE, perches=(1, 0, 0, 0)).loads
    assert loads[0] + loads[3] == pytest.approx(16.185, abs=6e-4)
    assert (loads[0] + loads[3]) / GRAVITY == pytest.approx(1.6504, abs=6e-5)


def test_height_above_the_hubs():
    """A van maker's guide for body builders."""
    lift = Lift(1200, 610.5, 624.5, 2575, 400, 300, 300)
    assert cg_height(lift) - 300 == pytest.approx(191.0456, abs=6e-5)


def test_with_spacers_the_outer_wheel_still_turns_where_the_inner_one_is_over_centre():
    """Found again by continuing along the rod's length."""
    linkage = Linkage(1400, 95, 8, 652, 100)
    assert -linkage.angle(RIGHT, -71) == pytest.approx(-44.8901, abs=6e-5)
    assert linkage.transmission(RIGHT, -71) == pytest.approx(56.927, abs=6e-4)


def test_a_long_tie_rod_along_the_rack_turns_the_wheel_by_the_arcsine():
    for arm, travel, degrees in ((125, 65, 31.33225), (95, 65, 43.17355), (95, 71, 48.36293)):
        # the inner joint so far off that the rod stays along the rack
        linkage = Linkage(2e9, arm, 0, 2, arm)
        assert abs(linkage.angle(RIGHT, -travel)) == pytest.approx(degrees, abs=1e-4)
        assert math.degrees(math.asin(travel / arm)) == pytest.approx(degrees, abs=6e-6)


def test_the_height_of_the_inner_joint_without_bump_steer_and_the_straight_line():
    """Kodati & Bandyopadhyay's equations, solved twice; the straight line: shim / (rod × arm)."""
    asked = sum_called("bump-steer-wishbone")
    worked, _ = work_out(asked, asked.example | {"shim_inner": "5"})
    assert worked.value("height") == pytest.approx(227.11334, abs=1e-3)
    assert worked.value("shimmed") - worked.value("per_25") == pytest.approx(0.15320, abs=1e-3)
    assert 25 * math.degrees(5 / (345 * 133)) == pytest.approx(0.15609, abs=6e-6)


def test_air_and_coolant_by_mass():
    """Ideal gas; 0.82 of water's heat for half glycol, a maker's workshop manual."""
    assert air_flow(100_000, 25, 35) * air_density(25) == pytest.approx(2.8401, abs=6e-5)
    assert air_flow(100_000, 25, 35) == pytest.approx(100_000 / (AIR_HEAT * 35) / air_density(25))
    assert coolant_flow(100_000, "half", 7) * COOLANTS["half"][1] == pytest.approx(4.0128, abs=6e-5)
    gallons = coolant_flow(100_000, "half", 7) / float(UNITS["US gal/min"].factor)
    assert gallons == pytest.approx(61.75, abs=6e-3)
    assert air_flow(100_000, 25, 35) / float(UNITS["CFM"].factor) == pytest.approx(5083.0, abs=0.06)


def test_three_degrees_a_psi_is_high():
    """IAPWS-IF97: the true average up to 15 psi."""
    psi = float(UNITS["psi"].factor)
    a_psi = (boiling_water(101_325 + 15 * psi) - boiling_water(101_325)) / 15
    assert a_psi == pytest.approx(1.399, abs=6e-4)
    assert 1.8 * a_psi == pytest.approx(2.52, abs=6e-3)
    assert boiling_water(101_325) - ZERO == pytest.approx(99.974, abs=6e-4)


def test_the_published_marine_formula_is_plain_copper_and_a_twentieth():
    """CM = 10.75 I L / E for 10 A over 21 ft and 3 % of 12 V: 6270.8 circular mils."""
    mils = 10.75 * 10 * 21 / 0.36
    assert mils == pytest.approx(6270.8, abs=0.06)
    plain = area_for_drop(10, 21 * 0.3048, 0.36) / (math.pi / 4 * 0.0254**2)
    assert mils / plain == pytest.approx(1.04, abs=0.02)


def test_power_and_heat_in_other_units():
    """NIST SP 811 B.8."""
    assert 150_000 / float(UNITS["hp"].factor) == pytest.approx(201.15, abs=6e-3)
    assert float(UNITS["CFM"].factor) == pytest.approx(4.719474432e-4, rel=1e-9)

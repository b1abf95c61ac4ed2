"""Cooling against published figures.

Sources: boiling of water IAPWS-IF97 (its own check values in kelvin); fan laws; the heat balance and the ideal gas;
half glycol from trade tables (223 to 226 °F in the open, 265 °F under a cap of 15 psi).
"""

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.cooling.boiling import boiling_water, boils_at
from builds.bench.cooling.fan import Fan, speed_laws
from builds.bench.cooling.heat import air_density, air_flow, coolant_flow
from builds.bench.frame.read import work_out

pytestmark = pytest.mark.plain
PSI = 0.0689475729316836


@pytest.mark.parametrize(("megapascals", "kelvin"), [(0.1, 372.755919), (1, 453.035632), (10, 584.149488)])
def test_check_values_of_the_formulation(megapascals, kelvin):
    assert boiling_water(megapascals * 1e6) == pytest.approx(kelvin, abs=1e-6)


@pytest.mark.parametrize(
    ("psi", "degrees"),
    [
        *((0, 99.974), (7, 111.268), (10, 115.198), (13, 118.755), (15, 120.955)),
        *((16, 122.009), (20, 125.967), (22, 127.808), (30, 134.444)),
    ],
)
def test_water_under_caps_at_sea_level(psi, degrees):
    assert boils_at(psi * PSI, 0, False) == pytest.approx(degrees, abs=1e-3)


@pytest.mark.parametrize(
    ("bar", "degrees"), [(0.9, 118.815), (1.1, 121.962), (1.3, 124.874), (1.4, 126.254), (2.0, 133.676)]
)
def test_water_under_caps_in_bar(bar, degrees):
    assert boils_at(bar, 0, False) == pytest.approx(degrees, abs=1e-3)


def test_water_at_1500_metres():
    assert boils_at(0, 1500, False) == pytest.approx(94.983, abs=0.01)
    assert boils_at(15 * PSI, 1500, False) == pytest.approx(118.263, abs=0.01)


def test_half_glycol():
    assert boils_at(0, 0, True) == pytest.approx(107.7, abs=0.1)
    assert boils_at(15 * PSI, 0, True) == pytest.approx(128.7, abs=0.1)


def test_air_for_heat():
    assert air_density(25) == pytest.approx(1.1839, abs=1e-4)
    assert air_flow(100_000, 25, 35) == pytest.approx(2.3989, abs=1e-4)
    assert air_flow(60_000, 35, 40) == pytest.approx(1.3017, abs=1e-4)


def test_coolant_for_heat():
    assert 60_000 * coolant_flow(100_000, "half", 7) == pytest.approx(233.76, abs=0.01)
    assert 60_000 * coolant_flow(100_000, "water", 7) == pytest.approx(211.23, abs=0.01)


def test_fans():
    one, other = Fan(406, 150, 22, 2200), Fan(305, 120, 25, 2800)
    assert (one.area, one.pitch, one.flow) == pytest.approx((0.11179, 0.38650, 1.58425), abs=1e-5)
    assert one.tip == pytest.approx(46.77, abs=0.005)
    assert (other.area, other.pitch, other.flow) == pytest.approx((0.06175, 0.33511, 0.96570), abs=1e-5)
    assert one.flow / other.flow == pytest.approx(1.6405, abs=1e-4)
    assert speed_laws(1.15) == pytest.approx((1.15, 1.3225, 1.520875))


def test_a_hub_as_large_as_its_fan_is_refused():
    fan = sum_called("fan")
    worked, errors = work_out(fan, fan.example | {"a_hub": "406"})
    assert worked is None
    assert errors == {"a_hub": "The hub is smaller than the fan."}


def test_what_boils_with_the_cap_off_is_said():
    worked, _ = work_out(sum_called("boiling"), {"cap": "1.1", "coolant": "water", "hot": "100"})
    assert worked.warnings == ("At 100 °C it boils as soon as the cap comes off.",)
    worked, _ = work_out(sum_called("boiling"), {"cap": "1.1", "coolant": "water", "hot": "99"})
    assert not worked.warnings


def test_what_boils_under_its_cap_is_said_and_what_nobody_saw_is_not_known():
    """Water under 0.5 bar boils at 111.6 °C at sea level (IAPWS-IF97)."""
    asked = {"cap": "0.5", "coolant": "water", "height": "0"}
    worked, _ = work_out(sum_called("boiling"), asked | {"hot": "112"})
    assert worked.warnings == ("At 112 °C it boils under this cap: stop, and let it cool with the cap on.",)
    worked, _ = work_out(sum_called("boiling"), asked | {"hot": "111"})
    assert worked.warnings == ("At 111 °C it boils as soon as the cap comes off.",)
    worked, errors = work_out(sum_called("boiling"), asked)
    assert not errors
    assert not worked.warnings
    assert {answer.slug: answer.words for answer in worked.answers}["left"].startswith("not known")

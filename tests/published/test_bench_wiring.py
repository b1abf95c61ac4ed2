"""Conductors against published tables.

Sources: American gauges ASTM B258; class 5 cable IEC 60228; copper NBS Handbook 100 (1/58 Ω·mm²/m); what it may carry
ABYC E-11 and 33 CFR 183.425; warming and the three quarters of a fuse from memory.
"""

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import work_out
from builds.bench.wiring.copper import SIZES, area_for_drop, gauge_area, gauge_diameter, voltage_drop, warm_factor
from builds.bench.wiring.fuses import fuse_for

pytestmark = pytest.mark.plain


@pytest.mark.parametrize(
    ("gauge", "across", "area", "milliohms"),
    [
        (20, 0.8118, 0.5176, 33.309),
        (18, 1.0237, 0.8230, 20.948),
        (16, 1.2908, 1.3087, 13.174),
        (14, 1.6277, 2.0809, 8.2855),
        (12, 2.0525, 3.3088, 5.2108),
        (10, 2.5882, 5.2612, 3.2771),
        (8, 3.2636, 8.3656, 2.0610),
        (6, 4.1154, 13.302, 1.2962),
        (4, 5.1894, 21.151, 0.8152),
        (2, 6.5437, 33.631, 0.5127),
    ],
)
def test_american_gauges(gauge, across, area, milliohms):
    assert gauge_diameter(gauge) == pytest.approx(across, abs=6e-5)
    assert gauge_area(gauge) == pytest.approx(area, rel=1e-4)
    assert 1000 * SIZES[f"awg{gauge}"].ohms == pytest.approx(milliohms, rel=1e-4)


@pytest.mark.parametrize(
    ("amps", "metres", "size", "cold", "warm"),
    [(25, 5, "4", 0.6188, 0.7160), (25, 5, "2.5", 0.9975, 1.1543), (80, 5.5, "16", 0.5324, 0.6161)],
)
def test_drop_at_20_and_60_degrees(amps, metres, size, cold, warm):
    assert voltage_drop(amps, metres, SIZES[size]) == pytest.approx(cold, abs=6e-5)
    assert voltage_drop(amps, metres, SIZES[size], 60) == pytest.approx(warm, abs=6e-5)


def test_plain_copper_for_a_drop():
    assert area_for_drop(25, 5, 0.03 * 13.8) == pytest.approx(5.2057, abs=5e-5)
    assert area_for_drop(80, 5.5, 0.03 * 13.8) == pytest.approx(18.324, abs=5e-4)


@pytest.mark.parametrize(("degrees", "factor"), [(60, 1.1572), (80, 1.2358), (105, 1.3341)])
def test_warm_copper(degrees, factor):
    assert warm_factor(degrees) == pytest.approx(factor, abs=6e-5)


@pytest.mark.parametrize(("slug", "outside", "inside"), [("awg18", 20, 17), ("awg10", 60, 51), ("awg2", 210, 178)])
def test_what_it_may_carry(slug, outside, inside):
    assert (SIZES[slug].outside, SIZES[slug].inside) == (outside, inside)


def test_a_fan_wants_a_fuse_of_40_and_six_square_millimetres_in_the_bay():
    assert fuse_for(25) == 40
    typed = {"amps": "25", "feed": "3.5", "back": "1.5", "drop": "5", "degrees": "60"}
    worked, errors = work_out(sum_called("wire-size"), typed)
    assert not errors
    assert worked.value("wanted") == 6
    assert worked.value("carries") == 51


def test_more_than_a_fuse_bears_is_said():
    typed = {"amps": "25", "feed": "3.5", "back": "1.5", "size": "2.5", "fuse": "60", "degrees": "60"}
    worked, _ = work_out(sum_called("wire-size"), typed)
    assert [said.split(",")[0] for said in worked.warnings] == [
        "2.5 mm² loses 1.15 V",
        "A fuse of 60 A lets through more than the 30 A that 2.5 mm² may carry there.",
    ]


def test_loads_of_a_harness():
    loads = "Fuel pump 8 A\nFan: 20\n\nLamps = 11,5 A"
    worked, errors = work_out(sum_called("harness"), {"loads": loads, "alternator": "30", "battery": "44"})
    assert not errors
    assert worked.value("total") == 39.5
    assert worked.value("spare") == -9.5
    assert worked.value("lasts") == pytest.approx(22 / 9.5)
    assert worked.warnings == ("The loads draw 9.5 A more than the alternator gives: the battery runs down.",)


@pytest.mark.parametrize("loads", ["pump", "pump x A", "pump 3 kg", "pump -3 A", "\n".join(["pump 1 A"] * 61)])
def test_a_line_that_cannot_be_read_is_named(loads):
    worked, errors = work_out(sum_called("harness"), {"loads": loads, "alternator": "30", "battery": "44"})
    assert worked is None
    assert list(errors) == ["loads"]

"""Units: factors as published, numbers with comma or point, and what is no number."""

import random
from fractions import Fraction as F

import pytest

from garage.engine.units import (
    SHOWN_IN,
    UNITS,
    QuantityError,
    convert,
    convert_difference,
    number_words,
    parse_number,
    quantity_words,
    unit_for,
)

# NIST Special Publication 811, Appendix B.8; the exact ones as decimals, the rest to the digits
# given there. http://physics.nist.gov/Pubs/SP811/appenB8.html
EXACT = [
    ("lb", "kg", "0.45359237"),
    ("in", "mm", "25.4"),
    ("lbf", "N", "4.4482216152605"),
    ("lbf·ft", "N·m", "1.3558179483314004"),
    ("kgf·m", "N·m", "9.80665"),
    ("kPa", "bar", "0.01"),
    ("kgf/cm²", "bar", "0.980665"),
    ("kgf/mm", "N/mm", "9.80665"),
    ("PS", "W", "735.49875"),
    ("US gal", "L", "3.785411784"),
    ("UK gal", "L", "4.54609"),
    ("CFM", "m³/s", "0.0004719474432"),
]
ROUNDED = [
    ("kg", "lb", "2.20462262184878"),
    ("lbf·in", "N·m", "0.1129848290276167"),
    ("N·m", "lbf·ft", "0.737562149277265"),
    ("psi", "Pa", "6894.75729316836"),
    ("psi", "bar", "0.0689475729316836"),
    ("bar", "psi", "14.5037737730209"),
    ("lbf/in", "N/mm", "0.175126835246476"),
    ("kgf/mm", "lbf/in", "55.9974"),
    ("hp", "W", "745.699871582270"),
]
# Worked out from the same factors.
PRODUCTS = [
    (2645, "lb", "kg", "1199.75181865"),
    (1200, "kg", "lb", "2645.547146"),
    (85, "lbf·ft", "N·m", "115.2445256"),
    (110, "N·m", "lbf·ft", "81.1318364"),
    (32, "psi", "bar", "2.206322334"),
    (F("2.2"), "bar", "psi", "31.9083023"),
    (400, "lbf/in", "N/mm", "70.0507341"),
    (6, "kgf/mm", "N/mm", "58.8399"),
    (6, "kgf/mm", "lbf/in", "335.9845"),
    (F("4.5"), "in", "mm", "114.3"),
    (F(1, 16), "in", "mm", "1.5875"),
]


@pytest.mark.parametrize(("of", "to", "factor"), EXACT)
def test_exact_factors(of, to, factor):
    assert convert(1, UNITS[of], UNITS[to]) == F(factor)


@pytest.mark.parametrize(("value", "of", "to", "expected"), [(1, *row) for row in ROUNDED] + PRODUCTS)
def test_rounded_factors_and_products(value, of, to, expected):
    digits = len(expected.partition(".")[2])
    assert abs(convert(value, UNITS[of], UNITS[to]) - F(expected)) <= F(1, 2 * 10**digits)


def test_temperatures_and_differences_of_temperature():
    # By definition: water freezes at 32 °F and boils at 212 °F; a step is 5/9 of a kelvin.
    c, f = UNITS["°C"], UNITS["°F"]
    assert [convert(each, f, c) for each in (32, 212, -40)] == [0, 100, -40]
    assert convert(20, c, f) == 68
    assert convert_difference(9, f, c) == 5
    assert convert_difference(10, c, f) == 18


def test_a_wrench_set_in_the_wrong_unit_is_36_per_cent_out():
    # The caution beside every torque: the same figure read as lbf·ft instead of N·m.
    ratio = convert(1, UNITS["lbf·ft"], UNITS["N·m"])
    assert round((ratio - 1) * 100) == 36


def test_across_quantities_is_refused():
    with pytest.raises(ValueError, match="lb is mass, lbf is force"):
        convert(1, UNITS["lb"], UNITS["lbf"])


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("1,5", F(3, 2)),
        ("1.5", F(3, 2)),
        (" 2440 ", F(2440)),
        ("-0,25", F(-1, 4)),
        ("+3", F(3)),
        ("-0", F(0)),
        ("007", F(7)),
        ("1,234", F(1234, 1000)),
        ("1/16", F(1, 16)),
        ("4 1/2", F(9, 2)),
        ("-4-1/2", F(-9, 2)),
    ],
)
def test_numbers_are_read_with_comma_or_point(typed, number):
    assert parse_number(typed) == number


@pytest.mark.parametrize(
    "typed",
    [
        *("", " ", "x", "NaN", "Infinity", "-inf", "1e5", "1E400000", "0x10", "1_000", "1 500"),
        *("1,234.5", "1.234,5", "1.2.3", ".", ",", "5.", ".5", "--1", "1/0", "1/", "½", "1/2/3", "105/2", "2/2"),
        *("１２", "٣", "²", "9" * 21, "9" * 5000, "1/" + "0" * 5000, "1\x00"),
    ],
)
def test_what_is_no_number_is_refused_with_a_sentence(typed):
    with pytest.raises(QuantityError, match=r"^(Write a number|That is too long).*\.$"):
        parse_number(typed)


@pytest.mark.parametrize(
    ("value", "digits", "words"),
    [
        (F(1234567, 1000), 1, "1234.6"),
        (F(5, 2), 0, "2"),
        (F(7, 2), 0, "4"),
        (F(100), 2, "100"),
        (F(-1, 1000), 1, "0"),
        (F(-5, 4), 2, "-1.25"),
        (F(101, 1000), 3, "0.101"),
        (F(1, 100), 2, "0.01"),
    ],
)
def test_numbers_are_rounded_when_shown(value, digits, words):
    assert number_words(value, digits) == words


def test_the_unit_stands_beside_the_figure():
    um = UNITS["µm"]
    assert quantity_words(2_440_000, um, unit_for("length", "metric")) == "2440 mm"
    assert quantity_words(2_440_000, um, unit_for("length", "imperial")) == "96.06 in"


@pytest.mark.parametrize("system", SHOWN_IN)
@pytest.mark.parametrize(
    ("quantity", "stored"),
    [("length", "µm"), ("mass", "g"), ("torque", "mN·m"), ("pressure", "Pa"), ("volume", "ml")],
)
def test_ten_thousand_figures_come_back_within_half_a_shown_step(system, quantity, stored):
    shown, kept = unit_for(quantity, system), UNITS[stored]
    draw = random.Random(f"{system} {quantity}")
    for _ in range(1_000):
        typed = F(draw.randrange(1, 10**7), 10**shown.digits)
        back = convert(round(convert(typed, shown, kept)), kept, shown)
        assert abs(back - typed) <= F(1, 2 * 10**shown.digits)
        assert parse_number(number_words(back, shown.digits)) == typed


def test_every_quantity_a_garage_sees_has_both_systems():
    assert SHOWN_IN["metric"].keys() == SHOWN_IN["imperial"].keys()
    for units in SHOWN_IN.values():
        assert all(UNITS[symbol].quantity == quantity for quantity, symbol in units.items())

"""Cure times against published data sheets and worked values."""

import math
from itertools import pairwise

import pytest

from builds.cure.engine import CureRule, CureTable, Product, Stage, Temperature, progress, ready_at

# Product data sheet of Temacoat Primer (epoxy): hours, film of the sheet's thickness.
EPOXY_TOUCH = CureTable((0, 10, 23, 35), (30, 12, 5, 3))
EPOXY_RECOAT = CureTable((0, 10, 23, 35), (32, 12, 4, 2))
EPOXY_RECOAT_POLYURETHANE = CureTable((0, 10, 23, 35), (60, 18, 6, 3))
EPOXY_WINTER_TOUCH = CureTable((-10, -5, 0, 10, 23, 35), (30, 16, 11, 7, 3, 1.5))
# Product data sheet of Temadur Primer (two-pack polyurethane).
POLYURETHANE_TOUCH = CureTable((5, 10, 23, 35), (6, 5, 3, 1.5))
POLYURETHANE_RECOAT = CureTable((5, 10, 23, 35), (4, 2, 1 / 2, 1 / 3))
# Cure chart of a hand-mixed epoxy pipe coating, to 75 Shore D.
PIPE_EPOXY = CureTable((4.4, 10, 15.6, 21.1, 26.7), (120, 95, 28, 10, 5.5))

PUBLISHED = {
    "epoxy touch": EPOXY_TOUCH,
    "epoxy recoat": EPOXY_RECOAT,
    "epoxy recoat with polyurethane": EPOXY_RECOAT_POLYURETHANE,
    "epoxy winter touch": EPOXY_WINTER_TOUCH,
    "polyurethane touch": POLYURETHANE_TOUCH,
    "polyurethane recoat": POLYURETHANE_RECOAT,
    "pipe epoxy": PIPE_EPOXY,
}


def product(figures, minimum=None):
    return Product("sample", "Sample", ((Stage.FULL, figures),), minimum=minimum)


def hours(product, temperature, start=0.0):
    minutes = ready_at(product, Stage.FULL, start, temperature)
    return None if minutes is None else (minutes - start) / 60


RULE = product(CureRule(20, 16, 2), minimum=10)
RULE_WITHOUT_A_FLOOR = product(CureRule(20, 16, 2), minimum=-40)


@pytest.mark.parametrize("table", PUBLISHED.values(), ids=PUBLISHED.keys())
def test_tabulated_temperatures_give_the_tabulated_times(table):
    for celsius, published in zip(table.celsius, table.hours, strict=True):
        found = hours(product(table), Temperature.fixed(celsius))
        assert found == pytest.approx(published, rel=1e-12)


@pytest.mark.parametrize("table", PUBLISHED.values(), ids=PUBLISHED.keys())
def test_half_way_between_two_entries_lies_their_geometric_mean(table):
    entries = zip(table.celsius, table.hours, strict=True)
    for (cold, slow), (warm, fast) in pairwise(entries):
        found = hours(product(table), Temperature.fixed((cold + warm) / 2))
        assert found == pytest.approx(math.sqrt(slow * fast), rel=1e-9)


def test_twice_per_ten_degrees_promises_half_the_published_time_in_the_cold():
    rule = product(CureRule(23, 6, 2), minimum=-10)
    promised = hours(rule, Temperature.fixed(0))
    published = hours(product(EPOXY_RECOAT_POLYURETHANE), Temperature.fixed(0))
    assert promised / published == pytest.approx(0.49, abs=5e-3)


# The rule of thumb "twice per 10 °C", 16 h at 20 °C; values worked from t · q^((T_ref − T)/10).
@pytest.mark.parametrize(
    ("celsius", "with_minimum", "without"),
    [
        (23, 12.996, 12.996),
        (20, 16.0, 16.0),
        (15, 22.627, 22.627),
        (12, 27.858, 27.858),
        (10, 32.0, 32.0),
        (8, None, 36.758),
    ],
)
def test_sixteen_hours_at_twenty_degrees_elsewhere(celsius, with_minimum, without):
    at = Temperature.fixed(celsius)
    assert hours(RULE_WITHOUT_A_FLOOR, at) == pytest.approx(without, abs=5e-4)
    if with_minimum is None:
        assert hours(RULE, at) is None
    else:
        assert hours(RULE, at) == pytest.approx(with_minimum, abs=5e-4)


@pytest.mark.parametrize(("factor", "expected"), [(1.8, 28.8), (2.5, 40.0)])
def test_other_factors_at_ten_degrees(factor, expected):
    slow = product(CureRule(20, 16, factor), minimum=10)
    assert hours(slow, Temperature.fixed(10)) == pytest.approx(expected, rel=1e-9)


# Hours at °C in turn; worked by hand from the same rule.
STEPS = [(4, 18), (10, 8), (12, 16), (2, 14), (10, 8), (12, 18)]
NIGHTS_TOO_COLD = Temperature.steps([(60 * length, celsius) for length, celsius in STEPS])


@pytest.mark.parametrize(
    ("after", "expected"),
    [(4, 0.217638), (14, 0.217638), (26, 0.786031), (28, 0.868501), (38, 0.868501)],
)
def test_progress_along_cold_nights(after, expected):
    found = progress(RULE, Stage.FULL, 0, 60 * after, NIGHTS_TOO_COLD)
    assert found == pytest.approx(expected, abs=5e-7)


def test_cold_nights_make_a_cure_late():
    assert hours(RULE, NIGHTS_TOO_COLD) == pytest.approx(40.41685, abs=5e-6)
    assert hours(RULE_WITHOUT_A_FLOOR, NIGHTS_TOO_COLD) == pytest.approx(24.774, abs=5e-4)


# Mean 15 °C, 8 °C either way. Mean rate q^((Tm − Tref)/10) · I0(A ln q / 10), I0 the modified
# Bessel function (Abramowitz and Stegun 9.6.16).
SINE = Temperature.through([(720 * k - 360, 7 if k % 2 == 0 else 23) for k in range(40)], smooth=True)


@pytest.mark.parametrize("start", [-360, 0, 95.5, 700])
def test_a_whole_day_of_a_sine_runs_at_its_mean_rate(start):
    a_day = progress(RULE_WITHOUT_A_FLOOR, Stage.FULL, start, start + 1440, SINE)
    mean_rate = a_day * 16 / 24
    assert mean_rate == pytest.approx(0.762517, abs=5e-7)
    assert mean_rate / 2**-0.5 == pytest.approx(1.07836, abs=5e-6)
    assert 16 / mean_rate == pytest.approx(20.983, abs=5e-4)


def test_a_cure_of_whole_days_takes_whole_days():
    mean_rate = 0.5**0.5 * sum((0.8 * math.log(2) / 2) ** (2 * k) / math.factorial(k) ** 2
                               for k in range(12))  # fmt: skip
    three_days = product(CureRule(20, 72 * mean_rate, 2), minimum=-40)
    assert hours(three_days, SINE, start=123.0) == pytest.approx(72, abs=1e-6)


@pytest.mark.parametrize("start", [-360, 0, 95.5, 700])
def test_the_cold_part_of_the_day_counts_for_nothing(start):
    a_day = progress(RULE, Stage.FULL, start, start + 1440, SINE) * 16
    assert a_day == pytest.approx(15.3105, abs=5e-5)
    assert a_day < 24 * 2**-0.5 == pytest.approx(16.97, abs=5e-3)


@pytest.mark.parametrize(("first", "last"), [(12, 24), (24, 12), (5, 19), (15, 15.001)])
def test_a_ramp_follows_its_closed_form(first, last):
    # ∫ q^((T − Tref)/10) dt = 10/(m ln q) · [q^((T1 − Tref)/10) − q^((T0 − Tref)/10)], m = dT/dt.
    length = 9.0
    ramp = Temperature.through([(0, first), (60 * length, last)], smooth=False)
    slope = (last - first) / length
    closed = 10 / (slope * math.log(2)) * (2 ** ((last - 20) / 10) - 2 ** ((first - 20) / 10))
    found = progress(RULE_WITHOUT_A_FLOOR, Stage.FULL, 0, 60 * length, ramp) * 16
    assert found == pytest.approx(closed, rel=1e-9)


def test_twice_per_ten_degrees_beside_arrhenius():
    # Activation energy 51.216 kJ/mol, which doubles the rate from 20 to 30 °C.
    arrhenius = {0: 0.21469, 5: 0.32201, 10: 0.47611, 20: 1.0, 30: 2.0000, 40: 3.8268}
    table = product(CureTable(tuple(arrhenius), tuple(16 / rate for rate in arrhenius.values())))
    doubling = {0: 0.25, 5: 0.35355, 10: 0.5, 20: 1.0, 30: 2, 40: 4}
    for celsius, rate in arrhenius.items():
        exact = math.exp(51216 / 8.314462618 * (1 / 293.15 - 1 / (273.15 + celsius)))
        assert rate == pytest.approx(exact, abs=1e-4)
        assert 16 / hours(table, Temperature.fixed(celsius)) == pytest.approx(rate, rel=1e-9)
        by_rule = 16 / hours(RULE_WITHOUT_A_FLOOR, Temperature.fixed(celsius))
        assert by_rule == pytest.approx(doubling[celsius], abs=5e-6)

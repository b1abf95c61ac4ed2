"""Figures typed and shown, and the course of readings as points on a sheet."""

from datetime import UTC, datetime, timedelta
from fractions import Fraction

import pytest

from builds.readings.engine.fields import fields_of
from builds.readings.engine.figures import (
    change_words,
    derived_words,
    figure_words,
    own_field,
    parse_figure,
    parse_tolerance,
)
from builds.readings.engine.trend import Sheet, across, apart, down, round_steps
from garage.engine.units import QuantityError

THEN = datetime(2027, 3, 2, tzinfo=UTC)
CAMBER, WEIGHT = fields_of("camber")[0], fields_of("corner_weights")[0]


@pytest.mark.parametrize(
    ("field", "text", "system", "amount"),
    [
        (CAMBER, "-2,5", "metric", -2500),
        (CAMBER, "-2.5", "imperial", -2500),
        (WEIGHT, "312.5", "metric", 312_500),
        (WEIGHT, "700 1/2", "imperial", 317_741),  # 700.5 lb of exactly 453.59237 g
        (own_field("Play", "mm", True), "0,125", "metric", 125),
    ],
)
def test_typed_as_the_garage_measures_and_kept_in_whole_units(field, text, system, amount):
    assert parse_figure(field, text, system) == amount


@pytest.mark.parametrize("text", ["nan", "", "1e3", "180.001", "-180.001"])
def test_what_is_no_figure_or_out_of_bounds_is_refused(text):
    with pytest.raises(QuantityError):
        parse_figure(CAMBER, text, "metric")


def test_a_tolerance_is_not_below_nothing():
    assert parse_tolerance(CAMBER, "0", "metric") == 0
    with pytest.raises(QuantityError, match="from 0 up"):
        parse_tolerance(CAMBER, "-0.1", "metric")


def test_figures_in_words():
    assert figure_words(CAMBER, -2500, "metric") == "-2.5°"
    assert figure_words(WEIGHT, 317_741, "imperial") == "700.5 lb"
    assert figure_words(fields_of("fuel_leak")[0], 0, "metric") == "failed"
    assert change_words(CAMBER, 300, "metric") == "+0.3°"
    assert change_words(CAMBER, -300, "metric") == "-0.3°"
    assert derived_words(Fraction(50_875), "m%", "metric") == "50.9%"
    assert derived_words(Fraction(1_200_000), "g", "imperial") == "2645.5 lb"


@pytest.mark.parametrize(
    ("low", "high", "steps"),
    [
        (0, 10, [0, 5, 10]),
        (-2, -1, ["-2", "-3/2", "-1"]),
        (Fraction(1, 10), Fraction(31, 100), ["1/10", "1/5", "3/10", "2/5"]),
        (312, 1200, [0, 500, 1000, 1500]),
    ],
)
def test_round_steps_reach_over_both_ends(low, high, steps):
    assert round_steps(Fraction(low), Fraction(high)) == tuple(Fraction(each) for each in steps)


def test_one_figure_gets_room_around_it():
    for value in (0, 5, -5):
        steps = round_steps(Fraction(value), Fraction(value))
        assert steps[0] < value < steps[-1]


def test_points_lie_within_the_ground():
    sheet = Sheet()
    days = [THEN + timedelta(days=each) for each in (0, 1, 4)]
    assert across(days, sheet) == [64, 175, 508]
    assert across(days[:1], sheet) == [286]
    assert across([THEN, THEN + timedelta(seconds=1)], sheet) == [64, 508]
    assert across([], sheet) == []
    ends = [Fraction(0), Fraction(10)]
    assert down(ends, *ends, sheet) == [224, 16]
    with pytest.raises(ValueError, match="two ends"):
        down(ends, Fraction(1), Fraction(1), sheet)


def test_labels_are_moved_apart():
    assert apart([100, 104, 300], 18) == [100, 118, 300]
    assert apart([104, 100], 18) == [118, 100]


def test_one_figure_has_a_tenth_of_it_as_room_each_way():
    steps = tuple(Fraction(number, 2) for number in range(18, 23))
    assert round_steps(Fraction(10), Fraction(10)) == steps
    assert round_steps(Fraction(0), Fraction(0)) == tuple(Fraction(number, 2) for number in range(-2, 3))

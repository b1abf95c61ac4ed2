"""What a reading holds, what it must carry, and how it is judged."""

import pytest

from builds.readings.engine import READINGS
from builds.readings.engine.conditions import CONDITIONS, conditions_of, lacking, lacking_words
from builds.readings.engine.fields import CHECK, FIGURE, fields_of
from builds.readings.engine.judge import Goal, judge, judge_all
from garage.engine.units import UNITS


@pytest.mark.parametrize("kind", READINGS)
def test_every_kind_has_values_in_units_that_exist(kind):
    rows = fields_of(kind)
    assert rows and len({row.slug for row in rows}) == len(rows)
    for row in rows:
        if row.type == FIGURE:
            symbols = (row.stored, *row.shown)
            assert {UNITS[symbol].quantity for symbol in symbols} == {row.quantity}
            assert row.least < row.most
        else:
            assert not row.stored


@pytest.mark.parametrize("kind", READINGS)
def test_every_figure_needs_its_instrument_and_a_check_nothing(kind):
    needed = conditions_of(kind)
    assert set(needed) <= set(CONDITIONS)
    figures = any(row.type == FIGURE for row in fields_of(kind))
    assert ("instrument" in needed) == figures


def test_corner_weights_without_their_floor_are_a_note():
    given = ["instrument", "fuel", "driver", "pressures", "bars"]
    needed = conditions_of("corner_weights")
    assert lacking(needed, given) == ("floor",)
    assert lacking(needed, [*given, "floor"]) == ()
    assert lacking_words(("floor", "fuel")) == "Not written down: fuel aboard, floor."


@pytest.mark.parametrize(
    ("amount", "goal", "expected"),
    [
        (1500, Goal(1300, 1500), "in"),
        (1501, Goal(1300, 1500), "out"),
        (1299, Goal(1300, 1500), "out"),
        (1400, Goal(1400, 1400), "in"),
        (1400, None, "not judged"),
        (None, Goal(1300, 1500), "not judged"),
    ],
)
def test_a_figure_is_judged_by_its_goal(amount, goal, expected):
    assert judge(fields_of("camber")[0], amount, goal) == expected


@pytest.mark.parametrize(("amount", "expected"), [(1, "in"), (0, "out"), (None, "not judged")])
def test_a_check_is_in_when_it_passed(amount, expected):
    (row,) = fields_of("fuel_leak")
    assert row.type == CHECK
    assert judge(row, amount, None) == expected


def test_one_value_out_puts_the_reading_out():
    rows = fields_of("toe_rear")
    goals = {"rl": Goal(50, 150)}
    assert judge_all(rows, {"rl": 100, "rr": 900}, goals) == "in"
    assert judge_all(rows, {"rl": 100, "rr": 900}, {**goals, "rr": Goal(50, 150)}) == "out"
    assert judge_all(rows, {"rl": 100, "rr": 900}, {}) == "not judged"

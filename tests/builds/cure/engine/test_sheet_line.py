"""A stage of a data sheet as a line: read back as it was written."""

import pytest

from builds.cure.engine import CureRule, ProductError, shipped_products
from builds.cure.engine.figures import CureTable
from builds.cure.engine.sheet_line import line_words, read_line, sheet_hours
from garage.engine.units import UNITS

C, F = UNITS["°C"], UNITS["°F"]
STAGES = [
    (product.slug, stage, figures) for product in shipped_products().values() for stage, figures in product.stages
]


def test_a_table_in_any_order_and_spacing() -> None:
    wanted = {"celsius": [10, 20], "hours": [16, 2.5]}
    for line in ("20: 2.5; 10: 16 h", "10:16h;20:2:30", "10 °C: 16 h\n20 °C: 2 h 30;"):
        assert read_line(line, C) == wanted


def test_fahrenheit_that_is_a_whole_celsius_is_exactly_that() -> None:
    assert read_line("50: 16 h; 68: 8 h", F)["celsius"] == [10, 20]


def test_one_temperature_is_a_rule_and_none_a_clock() -> None:
    rule = {"at": 20, "hours": 6, "factor": 2, "highest": 30}
    assert read_line("20: 6 h", C, 2, 30) == rule
    assert read_line("72 h", C) == {"hours": 72}


@pytest.mark.parametrize("unit", [C, F], ids=lambda unit: unit.symbol)
@pytest.mark.parametrize(("slug", "stage", "figures"), STAGES)
def test_what_is_written_is_read_back(slug, stage, figures, unit) -> None:
    rule = isinstance(figures, CureRule) and figures.factor > 1
    again = read_line(line_words(figures, unit), unit, figures.factor if rule else None)
    if isinstance(figures, CureTable):
        assert again["celsius"] == pytest.approx(figures.celsius, abs=0.06)
        assert again["hours"] == list(figures.hours)
    else:
        assert again["hours"] == figures.hours


def test_long_times_stay_hours() -> None:
    assert [sheet_hours(h) for h in (0.75, 2.5, 336)] == ["45 min", "2 h 30", "336 h"]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("10 16 h; 20: 8 h", "such as 10: 16 h; 20: 8 h."),
        ("ten: 16 h; 20: 8 h", "“ten” is no temperature."),
        ("10: soon; 20: 8 h", "“soon” is no time: write such as 16 h or 90 min."),
        ("soon", "“soon” is no time"),
        ("20: 8 h", "needs the factor for 10 °C more"),
        (";".join(["1: 1"] * 13), "At most 12 temperatures."),
        ("1e9: 2; 3: 4", "“1e9” is no temperature."),
    ],
)
def test_what_cannot_be_read_is_refused_in_one_sentence(line, said) -> None:
    with pytest.raises(ProductError) as refusal:
        read_line(line, C)
    assert said in str(refusal.value)

"""Figures as people say them, read the same in any garage; factors by NIST SP 811 Appendix B.8."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builds.readings.engine.fields import fields_of
from builds.readings.engine.figures import parse_figure
from garage.engine.said import said, says_unit, total_of
from garage.engine.units import QuantityError

WEIGHT, TORQUE, PRESSURE, HEIGHT, TOE = (
    fields_of(kind)[0] for kind in ("corner_weights", "wheel_torque", "tyre_pressures", "ride_height", "toe_front")
)


@pytest.mark.parametrize(
    ("field", "text", "amount"),
    [
        (WEIGHT, "690 lb", 312_979),  # 690 × 453.59237 g
        (WEIGHT, "690lbs", 312_979),
        (WEIGHT, "313 Kg", 313_000),
        (TORQUE, "85 ft lb", 115_245),  # 115.2445256 N·m: NIST SP 811
        (TORQUE, "85 lbf·ft", 115_245),
        (TORQUE, "85 lb-ft", 115_245),
        (TORQUE, "110 N·m", 110_000),
        (TORQUE, "110Nm", 110_000),
        (PRESSURE, "32 psi", 220_632),  # 2.206322334 bar
        (PRESSURE, "2,2 bar", 220_000),
        (PRESSURE, "220 kPa", 220_000),
        (HEIGHT, "4.5 in", 114_300),
        (HEIGHT, '4 1/2"', 114_300),
        (TOE, "0°10'", 167),
        (TOE, "0° 10′", 167),
        (TOE, "-1°30'", -1500),
        (TOE, "10'", 167),
        (TOE, "−0.2", -200),
        (TOE, "0.2°", 200),
        (TOE, "0.2 deg", 200),
        (TOE, "2 mm at 470 mm", 244),  # asin(2/470) = 0.24381°
    ],
)
@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_with_its_unit_it_is_the_same_in_every_garage(field, text, amount, system):
    assert parse_figure(field, text, system) == amount
    assert says_unit(text) == (text != "−0.2")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("1,250 kg", "Is that 1250 or 1.250? Write it without a comma."),
        ("1,250", "Is that 1250 or 1.250? Write it without a comma."),
        ("1,250,000", "Is that 1250000? Write it without a comma."),
        ("690 psi", "Write the figure in kg, or with another unit of mass beside it."),
        ("690 stone", "Write the figure in kg, or with another unit of mass beside it."),
        ("1.250,5 kg", "Write a number such as 12.5 or 12,5, without marks for thousands."),
    ],
)
def test_what_may_mean_something_else_is_refused_with_a_sentence(text, sentence):
    with pytest.raises(QuantityError) as refused:
        parse_figure(WEIGHT, text, "metric")
    assert str(refused.value) == sentence


@pytest.mark.parametrize("text", ["0 mm at 0 mm", "1 mm at 0 mm", "471 mm at 470 mm", "-471 mm at 470 mm"])
def test_nothing_is_across_no_length_or_more_than_it(text):
    with pytest.raises(QuantityError, match="Write a difference and where it was read"):
        parse_figure(TOE, text, "metric")


@pytest.mark.parametrize("text", ["0,125", "12,5", "1,25", "1,2500", "-0,250"])
def test_a_decimal_comma_stays_one(text):
    assert said(text, "mm", "mm") == Fraction(text.replace(",", "."))


@pytest.mark.parametrize(
    ("text", "total"),
    [("0.3 total", "0.3"), ("total 3 mm at 470 mm", "3 mm at 470 mm"), ("0.3", None), ("total", None)],
)
def test_total_toe_is_told_from_that_of_one_wheel(text, total):
    assert total_of(text) == total


@given(st.text(max_size=30))
def test_whatever_is_typed_is_a_number_or_a_sentence(text):
    for unit, stored in (("kg", "g"), ("°", "m°"), ("mm", "µm")):
        try:
            assert isinstance(said(text, unit, stored), Fraction)
        except QuantityError as refused:
            assert str(refused).endswith((".", "mm."))

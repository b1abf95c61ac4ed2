"""Figures of readings in words and back: typed as a garage measures, kept as whole stored units."""

from fractions import Fraction

from builds.readings.engine.fields import CHECK, FIGURE, PASS, Field
from garage.engine.said import said, said_in
from garage.engine.units import (
    UNITS,
    QuantityError,
    convert,
    number_words,
)

OWN = "own"
THOUSANDTHS = 1000
MOST_OWN = 10**9 * THOUSANDTHS
# Finer than a unit is shown elsewhere, where a reading is: what was typed must come back.
_DIGITS = {"°": 3, "mm": 3, "thou": 1, "in": 4, "kg": 2, "lb": 2, "bar": 3, "psi": 2, "%": 2}


def own_field(label: str, unit: str, is_number: bool) -> Field:
    """The one value of a kind that a garage made up: thousandths of its own unit, or words."""
    if not is_number:
        return Field("value", label, "text")
    return Field("value", label, FIGURE, OWN, "", (unit, unit), -MOST_OWN, MOST_OWN)


def parse_figure(field: Field, text: str, system: str) -> int:
    """What was typed as whole stored units, in the garage's unit unless it names one.

    QuantityError with one sentence; outside of the field's bounds it is refused.
    """
    amount = _stored(field, text, system)
    if not field.least <= amount <= field.most:
        low, high = (figure_words(field, edge, system) for edge in (field.least, field.most))
        raise QuantityError(f"It must lie between {low} and {high}.")
    return amount


def parse_tolerance(field: Field, text: str, system: str) -> int:
    """A tolerance each way in stored units; QuantityError when it is below nothing or too wide."""
    amount = _stored(field, text, system)
    if not 0 <= amount <= min(field.most - field.least, MOST_OWN):
        raise QuantityError("Write how far off it may be each way, from 0 up.")
    return amount


def _stored(field: Field, text: str, system: str) -> int:
    if field.quantity == OWN:
        return round(said_in(text, field.unit(system)) * THOUSANDTHS)
    return round(said(text, field.unit(system), field.stored))


def figure(field: Field, amount: Fraction | int, system: str) -> Fraction:
    """The amount (stored units) in the unit that the garage reads."""
    if field.quantity == OWN:
        return Fraction(amount, THOUSANDTHS)
    return convert(amount, UNITS[field.stored], UNITS[field.unit(system)])


def number_of(field: Field, amount: int, system: str) -> str:
    """The figure alone, as one would type it."""
    return number_words(figure(field, amount, system), _DIGITS.get(field.unit(system), 3))


def typed_metric(field: Field, amount: int) -> str:
    """The amount (stored units) as one would type it in the metric unit, to one digit more than is shown."""
    shown = UNITS[field.unit("metric")]
    return f"{number_words(convert(amount, UNITS[field.stored], shown), shown.digits + 1)} {shown.symbol}"


def figure_words(field: Field, amount: int, system: str) -> str:
    """`-1.5°`, `312.5 kg`, `passed`: the amount (stored units) with its unit beside it."""
    if field.type == CHECK:
        return "passed" if amount == PASS else "failed"
    return with_unit(number_of(field, amount, system), field.unit(system))


def with_unit(number: str, unit: str) -> str:
    """The unit beside the figure; that of an angle or a share close to it."""
    return f"{number}{unit}" if unit in ("°", "%") else f"{number} {unit}".strip()


def derived_words(amount: Fraction, unit: str, system: str) -> str:
    """A figure that follows from others, to the digits that it is worth.

    Mass as read, shares to 0.1 %, angles to 0.01°: what scales and gauges repeat; common
    practice, no source.
    """
    shown = {"g": ("kg", "lb")[system == "imperial"], "m%": "%", "m°": "°"}[unit]
    digits = {"kg": 1, "lb": 1, "%": 1, "°": 2}[shown]
    return with_unit(number_words(convert(amount, UNITS[unit], UNITS[shown]), digits), shown)


def change_words(field: Field, amount: int, system: str) -> str:
    """How much a figure changed (stored units), with its sign: `+0.2°`; `0 mm` when not at all."""
    words = figure_words(field, amount, system)
    return f"+{words}" if amount > 0 else words

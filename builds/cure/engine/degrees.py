"""Temperatures in words: computed in °C, said in the garage's unit."""

from fractions import Fraction

from builds.cure.engine.sheet_line import CELSIUS
from garage.engine.units import Unit, convert_difference, number_words, quantity_words


def degrees_words(value: float, unit: Unit) -> str:
    """A temperature given in °C, in the unit: `12 °C`, `53.6 °F`."""
    return quantity_words(Fraction(value), CELSIUS, unit)


def gap_words(value: float, unit: Unit) -> str:
    """A difference given in °C, in the unit: `3 °C`, `5.4 °F`."""
    return f"{number_words(convert_difference(Fraction(value), CELSIUS, unit), 1)} {unit.symbol}"


def celsius(thousandths: int) -> float:
    """°C of a temperature as it is stored."""
    return thousandths / 1000

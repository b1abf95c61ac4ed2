"""Which unit a sum's figure is typed and shown in, metric or imperial."""

import math
from fractions import Fraction

from garage.engine.units import UNITS, convert

IMPERIAL = {
    "mm": "in",
    "m": "ft",
    "kg": "lb",
    "N": "lbf",
    "kN": "lbf",
    "N/mm": "lbf/in",
    "N·m": "lbf·ft",
    "bar": "psi",
    "°C": "°F",
    "kW": "hp",
    "km/h": "mph",
    "L": "US gal",
    "L/min": "US gal/min",
    "m³/h": "CFM",
}


def unit_in(unit: str, system: str) -> str:
    """The symbol that a garage of that system ("metric", "imperial") types and reads for `unit`."""
    return IMPERIAL.get(unit, unit) if system == "imperial" else unit


def in_system(value: float, unit: str, system: str) -> float:
    """A figure in `unit` as that system has it."""
    shown = unit_in(unit, system)
    return value if shown == unit else float(convert(Fraction(value), UNITS[unit], UNITS[shown]))


def digits_in(digits: int, unit: str, system: str) -> int:
    """As many decimals in that system as resolve what `digits` of them do in `unit`."""
    shown = unit_in(unit, system)
    if shown == unit:
        return digits
    return max(0, digits + round(math.log10(UNITS[shown].factor / UNITS[unit].factor)))

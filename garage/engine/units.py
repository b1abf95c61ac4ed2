"""Units: exact factors as fractions, numbers read with comma or point, rounding only when shown."""

import re
from dataclasses import dataclass
from fractions import Fraction

LONGEST = 20
NUMBER = re.compile(r"([+-]?)(\d+)(?:[.,](\d+))?", re.ASCII)
FRACTION = re.compile(r"([+-]?)(?:(\d+)[ -])?(\d+)/(\d+)", re.ASCII)


@dataclass(frozen=True, slots=True)
class Unit:
    """`factor` is what one of it is in the SI unit of its quantity, `zero` what its 0 is there.

    `digits` is how many decimals are shown.
    """

    symbol: str
    quantity: str
    factor: Fraction
    digits: int = 0
    zero: Fraction = Fraction(0)


class QuantityError(ValueError):
    """One sentence that says what to write instead."""


# Exact by definition: the international yard and pound, standard gravity, the US gallon of 231
# cubic inches and the UK gallon of 4.54609 litres; the rest are products. Compared in the tests
# with NIST SP 811 Appendix B.8; the definitions themselves from memory.
INCH = Fraction(254, 10_000)
POUND = Fraction(45_359_237, 100_000_000)
GRAVITY = Fraction(980_665, 100_000)
FOOT = 12 * INCH
POUND_FORCE = POUND * GRAVITY
LITRE = Fraction(1, 1000)
BAR = Fraction(100_000)
FAHRENHEIT = Fraction(5, 9)
ICE = Fraction(27_315, 100)

_ROWS = [
    ("µm", "length", Fraction(1, 1_000_000), 0),
    ("mm", "length", Fraction(1, 1000), 1),
    ("cm", "length", Fraction(1, 100), 2),
    ("m", "length", Fraction(1), 3),
    ("in", "length", INCH, 2),
    ("ft", "length", FOOT, 2),
    ("thou", "length", INCH / 1000, 0),
    ("g", "mass", Fraction(1, 1000), 0),
    ("kg", "mass", Fraction(1), 1),
    ("lb", "mass", POUND, 1),
    ("N", "force", Fraction(1), 0),
    ("kN", "force", Fraction(1000), 1),
    ("lbf", "force", POUND_FORCE, 1),
    ("kgf", "force", GRAVITY, 1),
    ("mN·m", "torque", Fraction(1, 1000), 0),
    ("N·m", "torque", Fraction(1), 1),
    ("lbf·ft", "torque", POUND_FORCE * FOOT, 1),
    ("lbf·in", "torque", POUND_FORCE * INCH, 1),
    ("kgf·m", "torque", GRAVITY, 2),
    ("Pa", "pressure", Fraction(1), 0),
    ("kPa", "pressure", Fraction(1000), 1),
    ("bar", "pressure", BAR, 2),
    ("psi", "pressure", POUND_FORCE / INCH**2, 1),
    ("kgf/cm²", "pressure", GRAVITY * 10_000, 2),
    ("N/mm", "spring rate", Fraction(1000), 1),
    ("lbf/in", "spring rate", POUND_FORCE / INCH, 0),
    ("kgf/mm", "spring rate", GRAVITY * 1000, 2),
    ("W", "power", Fraction(1), 0),
    ("kW", "power", Fraction(1000), 1),
    ("hp", "power", 550 * POUND_FORCE * FOOT, 1),
    ("PS", "power", 75 * GRAVITY, 1),
    ("ml", "volume", LITRE / 1000, 0),
    ("L", "volume", LITRE, 2),
    ("US gal", "volume", 231 * INCH**3, 2),
    ("UK gal", "volume", Fraction(454_609, 100_000) * LITRE, 2),
    ("m³/s", "flow", Fraction(1), 4),
    ("m³/h", "flow", Fraction(1, 3600), 0),
    ("L/min", "flow", LITRE / 60, 1),
    ("US gal/min", "flow", 231 * INCH**3 / 60, 1),
    ("CFM", "flow", FOOT**3 / 60, 0),
    ("mV", "voltage", Fraction(1, 1000), 0),
    ("V", "voltage", Fraction(1), 2),
    ("A", "current", Fraction(1), 1),
    ("mm²", "area", Fraction(1, 1_000_000), 2),
    ("cm²", "area", Fraction(1, 10_000), 2),
    ("km/h", "speed", Fraction(1000, 3600), 1),
    ("mph", "speed", 5280 * FOOT / 3600, 1),
    ("rpm", "turning", Fraction(1, 60), 0),
    ("min", "time", Fraction(60), 0),
    ("h", "time", Fraction(3600), 1),
    ("m°", "angle", Fraction(1, 1000), 0),  # angles count in degrees: a radian is not exact
    ("°", "angle", Fraction(1), 2),
    ("m%", "share", Fraction(1, 1000), 0),
    ("%", "share", Fraction(1), 1),
]
UNITS: dict[str, Unit] = {unit[0]: Unit(*unit) for unit in _ROWS} | {
    "m°C": Unit("m°C", "temperature", Fraction(1, 1000), 0, ICE),
    "°C": Unit("°C", "temperature", Fraction(1), 1, ICE),
    "°F": Unit("°F", "temperature", FAHRENHEIT, 1, ICE - 32 * FAHRENHEIT),
}
# What a garage reads and types; its system is "metric" or "imperial".
SHOWN_IN: dict[str, dict[str, str]] = {
    "metric": {
        "length": "mm",
        "mass": "kg",
        "torque": "N·m",
        "pressure": "bar",
        "spring rate": "N/mm",
        "power": "kW",
        "volume": "L",
        "temperature": "°C",
    },
    "imperial": {
        "length": "in",
        "mass": "lb",
        "torque": "lbf·ft",
        "pressure": "psi",
        "spring rate": "lbf/in",
        "power": "hp",
        "volume": "US gal",
        "temperature": "°F",
    },
}


def unit_for(quantity: str, system: str) -> Unit:
    """The unit a garage shows a quantity in. KeyError for an unknown quantity or system."""
    return UNITS[SHOWN_IN[system][quantity]]


def _same_quantity(one: Unit, two: Unit) -> None:
    if one.quantity != two.quantity:
        raise ValueError(f"{one.symbol} is {one.quantity}, {two.symbol} is {two.quantity}.")


def convert(value: Fraction | int, of: Unit, to: Unit) -> Fraction:
    """The same amount in another unit, exactly. ValueError across quantities."""
    _same_quantity(of, to)
    return (value * of.factor + of.zero - to.zero) / to.factor


def convert_difference(value: Fraction | int, of: Unit, to: Unit) -> Fraction:
    """A rise or a gap in another unit: as `convert`, but zeros play no part."""
    _same_quantity(of, to)
    return value * of.factor / to.factor


def parse_number(text: str) -> Fraction:
    """`1.5`, `1,5`, `-3`, `1/16` or `4 1/2` as an exact number.

    A comma is a decimal comma and never marks thousands. Raises QuantityError for everything
    else, without looking at more than twenty characters.
    """
    tidy = text.strip()
    if len(tidy) > LONGEST:
        raise QuantityError(f"That is too long for a number: at most {LONGEST} characters.")
    if match := NUMBER.fullmatch(tidy):
        sign, whole, decimals = match[1], match[2], match[3] or ""
        size = Fraction(int(whole + decimals), 10 ** len(decimals))
        return -size if sign == "-" else size
    if (match := FRACTION.fullmatch(tidy)) and int(match[3]) < int(match[4]):  # 105/2 is two figures, not a fraction
        size = int(match[2] or 0) + Fraction(int(match[3]), int(match[4]))
        return -size if match[1] == "-" else size
    raise QuantityError("Write a number such as 12.5 or 12,5, without marks for thousands.")


def number_words(value: Fraction, digits: int) -> str:
    """The number rounded half to even at `digits` decimals, without zeros at its end."""
    steps = round(value * 10**digits)
    sign = "-" if steps < 0 else ""
    whole, rest = divmod(abs(steps), 10**digits)
    decimals = f"{rest:0{digits}d}".rstrip("0") if digits else ""
    return f"{sign}{whole}.{decimals}" if decimals else f"{sign}{whole}"


def quantity_words(value: Fraction | int, of: Unit, to: Unit) -> str:
    """The amount with its unit beside it, as `2440 mm` or `96.06 in`."""
    return f"{number_words(convert(value, of, to), to.digits)} {to.symbol}"

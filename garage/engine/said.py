"""Figures as people say them: `690 lb`, `85 ft lb`, `0°10'`, `2 mm at 470 mm`."""

import math
import re
from fractions import Fraction

from garage.engine.units import FRACTION, UNITS, QuantityError, convert, number_words, parse_number

LONGEST_SAID = 40
# An angle read with strings, plates or a rule: a difference, and across what it was read.
_ACROSS = re.compile(r'(\S.*?)\s*(mm|cm|in|"|″)\s+at\s+(\S.*?)\s*(mm|cm|in|"|″)', re.ASCII)
_DEGREES = re.compile(
    r"""([+-]?)(?:(\d{1,3})\s*°\s*)?(\d{1,3}(?:[.,]\d{1,3})?)\s*['′’](?:\s*(\d{1,2})\s*(?:"|″|''))?""", re.ASCII
)
_WITH_UNIT = re.compile(r"([+-]?[\d.,/ -]*\d)\s*(\D.*)?", re.ASCII)
_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2}(?:,\d{3})+", re.ASCII)
_PLAIN = re.compile(r"[\d.,/ +-]*", re.ASCII)
_APART = re.compile(r"\s*[/;]\s*|\s+(?=[+-]?\d)", re.ASCII)
_BETWEEN = str.maketrans("", "", " .·-*")
_GIVE = re.compile(r"\+\s*/?\s*[-−]")
# What is written beside a figure, without blanks and dots, in small letters.
_CALLED = {
    **{"kg": "kg", "kgs": "kg", "kilo": "kg", "kilos": "kg", "g": "g"},
    **{"lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb"},
    **{"nm": "N·m", "kgm": "kgf·m", "kgfm": "kgf·m"},
    **dict.fromkeys(("ftlb", "ftlbs", "lbft", "lbsft", "ftlbf", "lbfft", "footpounds"), "lbf·ft"),
    **dict.fromkeys(("inlb", "inlbs", "lbin", "inlbf", "lbfin", "inchpounds"), "lbf·in"),
    **{"bar": "bar", "psi": "psi", "kpa": "kPa"},
    **{"mm": "mm", "cm": "cm", "m": "m", "in": "in", "inch": "in", "inches": "in", '"': "in", "″": "in"},
    **{"thou": "thou", "°": "°", "deg": "°", "degree": "°", "degrees": "°", "%": "%", "mv": "mV"},
    **{"µm": "µm", "ft": "ft", "feet": "ft", "foot": "ft", "mm²": "mm²", "mm2": "mm²", "cm²": "cm²", "cm2": "cm²"},
    **{"n": "N", "kn": "kN", "kgf": "kgf", "lbf": "lbf", "n/mm": "N/mm", "kg/mm": "kgf/mm", "kgf/mm": "kgf/mm"},
    **dict.fromkeys(("lb/in", "lbs/in", "lbf/in"), "lbf/in"),
    **{"w": "W", "kw": "kW", "hp": "hp", "ps": "PS", "ml": "ml"},
    **dict.fromkeys(("l", "ltr", "liter", "liters", "litre", "litres"), "L"),
    **{"usgal": "US gal", "usgallons": "US gal", "ukgal": "UK gal", "ukgallons": "UK gal", "impgal": "UK gal"},
    **{"cfm": "CFM", "m³/h": "m³/h", "m3/h": "m³/h"},
    **{"l/min": "L/min", "m³/s": "m³/s", "v": "V", "a": "A", "amp": "A", "amps": "A"},
    **{"km/h": "km/h", "kmh": "km/h", "mph": "mph", "rpm": "rpm"},
    **{"min": "min", "mins": "min", "minutes": "min", "h": "h", "hour": "h", "hours": "h"},
    **{"°c": "°C", "c": "°C", "°f": "°F", "f": "°F"},
}
_TOTAL = re.compile(r"(?:total(?: toe)?\s+(.+)|(.+?)\s+total(?: toe)?)", re.ASCII | re.IGNORECASE)


def total_of(text: str) -> str | None:
    """The figure in `0.3 total`, which is that of both wheels; None where it is of one."""
    total = _TOTAL.fullmatch(text.strip())
    return (total[1] or total[2]) if total else None


def give_of(text: str) -> tuple[str, str]:
    """A figure and how far off it may be each way, from `312.5 ± 0.5 kg`; nothing where nobody said so.

    A unit that one of the two lacks is that of the other.
    """
    figure, sign, give = (part.strip() for part in _GIVE.sub("±", text).partition("±"))
    if not sign:
        return figure, ""
    beside = [match[2] or "" if (match := _WITH_UNIT.fullmatch(part)) else "" for part in (figure, give)]
    if beside[0] and not beside[1]:
        give = f"{give} {beside[0]}"
    elif beside[1] and not beside[0] and says_unit(give):
        figure = f"{figure} {beside[1]}"
    return figure, give


def says_unit(text: str) -> bool:
    """Whether more than a number was typed, so that it is read the same in any garage."""
    return _PLAIN.fullmatch(text.replace("−", "-")) is None


def said(text: str, unit: str, stored: str) -> Fraction:
    """What was typed, in `stored` units; a number alone is in `unit` (both of `UNITS`).

    An angle also as degrees, minutes and seconds, or as a difference and across what it was read. Raises
    QuantityError with one sentence; what may be two figures, or mark thousands, is asked about.
    """
    tidy = text.strip().replace("−", "-")
    if len(tidy) > LONGEST_SAID:
        raise QuantityError(f"That is too long for a figure: at most {LONGEST_SAID} characters.")
    if UNITS[unit].quantity == "angle" and (angle := _angle(tidy)) is not None:
        return convert(angle, UNITS["°"], UNITS[stored])
    parts = _WITH_UNIT.fullmatch(tidy)
    if parts is None:
        return convert(number(tidy), UNITS[unit], UNITS[stored])
    return convert(number(parts[1]), UNITS[_called(parts[2], unit)], UNITS[stored])


def several(text: str) -> list[str]:
    """The figures in `26/26/24/24 psi` or `1.9 1.9 1.8 1.8`; a unit beside the last alone is that of all."""
    figures = _APART.split(text.strip())
    last = _WITH_UNIT.fullmatch(figures[-1])
    if last and last[2] and not any(says_unit(figure) for figure in figures[:-1]):
        return [*(f"{figure} {last[2]}" for figure in figures[:-1]), figures[-1]]
    return figures


def said_in(text: str, unit: str) -> Fraction:
    """What was typed, in a unit that somebody wrote down in his own words, beside the figure or not.

    QuantityError as of `said`; of a unit that is not known here nothing else is read.
    """
    if symbol := _CALLED.get(unit.lower().translate(_BETWEEN)):
        return said(text, symbol, symbol)
    tidy = text.strip().replace("−", "-")
    return number(tidy.removesuffix(unit) if unit else tidy)


def number(text: str) -> Fraction:
    """A number; QuantityError where its comma may mark thousands, or its stroke may stand between two figures."""
    tidy = text.strip()
    if _THOUSANDS.fullmatch(tidy):
        whole, decimal = tidy.replace(",", ""), tidy.replace(",", ".", 1)
        meant = f"{whole} or {decimal}" if tidy.count(",") == 1 else whole
        raise QuantityError(f"Is that {meant}? Write it without a comma.")
    over = FRACTION.fullmatch(tidy)
    if over and int(over[3]) >= int(over[4]) > 0:
        whole_and_part = int(over[2] or 0) + Fraction(int(over[3]), int(over[4]))
        raise QuantityError(f"Is that {number_words(whole_and_part, 3)}? Write it without a stroke.")
    return parse_number(tidy)


def _called(words: str | None, unit: str) -> str:
    if not words:
        return unit
    symbol = _CALLED.get(words.lower().translate(_BETWEEN))
    quantity = UNITS[unit].quantity
    if quantity == "angle" and symbol and UNITS[symbol].quantity == "length":
        raise QuantityError("Say where it was read too, such as 1 mm at 400 mm, or write degrees.")
    if symbol is None or UNITS[symbol].quantity != quantity:
        others = any(UNITS[other].quantity == quantity for other in {*_CALLED.values()} - {unit})
        more = f", or with another unit of {quantity} beside it" if others else ""
        raise QuantityError(f"Write the figure in {unit}{more}.")
    return symbol


def _angle(text: str) -> Fraction | None:
    """Degrees; of a difference, the arcsine of it by what it was read across.

    Source: the definition of the sine; toe as the angle of the wheel, ISO 8855:2011 7.1.6.
    """
    if minutes := _DEGREES.fullmatch(text):
        size = int(minutes[2] or 0) + parse_number(minutes[3]) / 60 + Fraction(int(minutes[4] or 0), 3600)
        return -size if minutes[1] == "-" else size
    across = _ACROSS.fullmatch(text)
    if across is None:
        return None
    difference, length = (
        number(figure) * UNITS[_CALLED[unit]].factor for figure, unit in (across.group(1, 2), across.group(3, 4))
    )
    if length <= 0 or abs(difference) > length:
        raise QuantityError("Write a difference and where it was read, such as 1.5 mm at 470 mm.")
    return Fraction(math.degrees(math.asin(difference / length)))

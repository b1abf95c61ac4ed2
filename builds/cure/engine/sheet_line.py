"""One stage of a data sheet as a line: `10: 16 h; 20: 8 h; 30: 4 h`, read and written."""

from fractions import Fraction
from typing import Any

from builds.cure.engine.figures import CureTable, Figures, ProductError
from garage.engine.said import said
from garage.engine.units import UNITS, QuantityError, Unit, convert, number_words
from garage.engine.words import parse_duration

MOST_ENTRIES = 12
CELSIUS = UNITS["°C"]
_HOW = "Write a temperature and its time, several divided by semicolons, such as"


def read_line(line: str, unit: Unit, factor: float | None = None, highest: float | None = None) -> dict[str, Any]:
    """A stage in the shape that `product_from_dict` takes; temperatures in `unit`.

    Several temperatures are a table, one needs the `factor` for 10 °C more and stops growing at
    `highest` (°C), none is a plain clock. ProductError, one sentence, for anything else.
    """
    entries = [part.strip() for part in line.replace("\n", ";").split(";") if part.strip()]
    if len(entries) > MOST_ENTRIES:
        raise ProductError(f"At most {MOST_ENTRIES} temperatures.")
    if not entries:
        raise ProductError("Write a time such as 16 h.")
    if len(entries) == 1 and ":" not in entries[0]:
        return {"hours": _hours(entries[0])}
    pairs = sorted(_pair(entry, unit) for entry in entries)
    if len(pairs) > 1:
        return {"celsius": [pair[0] for pair in pairs], "hours": [pair[1] for pair in pairs]}
    celsius, hours = pairs[0]
    if factor is None:
        raise ProductError("With one temperature it needs the factor for 10 °C more, below.")
    rule = {"at": celsius, "hours": hours, "factor": factor}
    return rule if highest is None else {**rule, "highest": highest}


def line_words(figures: Figures, unit: Unit) -> str:
    """What `read_line` reads back as the same figures."""
    if isinstance(figures, CureTable):
        pairs = zip(figures.celsius, figures.hours, strict=True)
        return "; ".join(f"{_degrees(c, unit)}: {sheet_hours(h)}" for c, h in pairs)
    if figures.factor == 1:
        return sheet_hours(figures.hours)
    return f"{_degrees(figures.celsius, unit)}: {sheet_hours(figures.hours)}"


def sheet_hours(hours: float) -> str:
    """`336 h`, `2 h 30`, `45 min`: never days, as data sheets have it."""
    whole, minutes = divmod(round(hours * 60), 60)
    if not whole:
        return f"{minutes} min"
    return f"{whole} h {minutes:02d}" if minutes else f"{whole} h"


def _pair(entry: str, unit: Unit) -> tuple[float, float]:
    degrees, colon, time = entry.partition(":")
    if not colon:
        raise ProductError(f"{_HOW} {_degrees(10, unit)}: 16 h; {_degrees(20, unit)}: 8 h.")
    try:
        celsius = said(degrees, unit.symbol, CELSIUS.symbol)
    except QuantityError:
        raise ProductError(f"“{degrees.strip()[:20]}” is no temperature.") from None
    # To a thousandth, so that 50 °F is 10 °C and not a hair less.
    return round(float(celsius), 3), _hours(time)


def _hours(text: str) -> float:
    try:
        return parse_duration(text) / 60
    except ValueError:
        raise ProductError(f"“{text.strip()[:20]}” is no time: write such as 16 h or 90 min.") from None


def _degrees(celsius: float, unit: Unit) -> str:
    return number_words(convert(Fraction(celsius), CELSIUS, unit), unit.digits)

"""Readings in words: conditions, limits, what follows from the values, how one stands."""

from collections.abc import Iterable
from datetime import datetime
from zoneinfo import ZoneInfo

from builds.readings.engine.derived import derived
from builds.readings.engine.fields import Field
from builds.readings.engine.figures import derived_words
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.limits import MARKS
from builds.readings.engine.void import AHEAD, MISSING, OLD, RAN, STANDS, VOID
from builds.readings.engine.why_not import lapse_words, note_words, value_words
from builds.readings.models.reading import Reading
from builds.readings.models.target import Target
from garage.engine.gear import Judged
from garage.engine.moments import moment_words
from garage.engine.units import UNITS, quantity_words, unit_for
from garage.models import Garage


def mark_words(targets: Iterable[Target]) -> str:
    """Whose figures the limits are, such as `common practice, no source`."""
    return ", ".join(dict.fromkeys(MARKS[target.mark] for target in targets))


def derived_rows(line: KindLine, system: str) -> tuple[tuple[str, str], ...]:
    """What follows from the values: label and figure."""
    return derived_of(line.kind.key, line.amounts, system)


def derived_of(key: str, amounts: dict[str, int | None], system: str) -> tuple[tuple[str, str], ...]:
    return tuple((line.label, derived_words(line.amount, line.unit, system)) for line in derived(key, amounts))


def condition_rows(reading: Reading, system: str) -> tuple[tuple[str, str], ...]:
    """What was written beside it; what was not is left out."""
    told = (("Instrument", reading.instrument),) if reading.instrument else ()
    return (*told, *stood_rows(reading, system))


def stood_rows(reading: Reading, system: str) -> tuple[tuple[str, str], ...]:
    """How the car stood while it was taken; what was not written down is left out."""
    rows = [
        ("Fuel aboard", _amount(reading.fuel_ml, "ml", "volume", system)),
        ("Driver", reading.get_driver_display()),
        ("Front tyres at", _amount(reading.front_pa, "Pa", "pressure", system)),
        ("Rear tyres at", _amount(reading.rear_pa, "Pa", "pressure", system)),
        ("Floor", reading.get_floor_display()),
        ("Anti-roll bars", reading.get_bars_display()),
    ]
    return tuple((label, str(words)) for label, words in rows if words)


def _amount(amount: int | None, stored: str, quantity: str, system: str) -> str:
    if amount is None:
        return ""
    return quantity_words(amount, UNITS[stored], unit_for(quantity, system))


def read_words(line: KindLine, field: Field, garage: Garage, at: datetime) -> str:
    """The figure or check as it was read; of one that an older reading tells, that it is as of then."""
    words = value_words(field, line.values.get(field.slug), garage.units)
    return ", ".join(filter(None, [words, as_of(line, field, garage, at)]))


def as_of(line: KindLine, field: Field, garage: Garage, at: datetime) -> str:
    """When a figure was read that an older reading tells; nothing of any other."""
    kept = line.kept.get(field.slug)
    return f"as of {moment_words(kept, ZoneInfo(garage.time_zone), at)}" if kept else ""


def instrument_words(judged: Judged | None) -> str:
    """That what it was taken with was out of its date; nothing where it was not."""
    return f"What it was taken with was out of its date: {judged.sentence}" if judged else ""


NOTE = "note"
# How a reading is said to stand; what lapsed is to be measured again.
STATE_WORDS = {
    MISSING: "never taken",
    VOID: "void",
    RAN: "not known",
    AHEAD: "not known",
    OLD: "too old",
    NOTE: "a note only",
    STANDS: "stands",
}


def state_of(line: KindLine, garage: Garage, at: datetime) -> tuple[str, str]:
    """Which of `STATE_WORDS` holds, and why in words; no words for what stands or was never taken."""
    if line.state == STANDS and line.only_a_note:
        return NOTE, note_words(line)
    return line.state, lapse_words(line, ZoneInfo(garage.time_zone), at)

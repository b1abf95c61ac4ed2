"""Readings in words: values as they were typed, conditions, why one is void, what is out."""

from datetime import datetime
from zoneinfo import ZoneInfo

from builds.readings.engine.conditions import lacking_words
from builds.readings.engine.derived import derived
from builds.readings.engine.fields import CHECK, TEXT, Field
from builds.readings.engine.figures import derived_words, figure_words, says_unit, with_unit
from builds.readings.engine.judge import OUT
from builds.readings.engine.void import VOID
from builds.readings.facts.readings import KindLine
from builds.readings.models.reading import Reading, ReadingValue
from builds.readings.models.target import Target
from garage.engine.moments import moment_words
from garage.engine.units import UNITS, quantity_words, unit_for
from garage.models import Garage


def value_words(field: Field, value: ReadingValue | None, system: str) -> str:
    """As it was typed while the garage measures as it did then; else in its units of today.

    An angle typed as a difference and across what it was read is shown as both.
    """
    if value is None:
        return ""
    if field.type == TEXT:
        return value.typed
    if field.type == CHECK or value.unit != field.unit(system):
        words = figure_words(field, value.amount or 0, system)
        return f"{words} ({value.typed})" if says_unit(value.typed) else words
    return with_unit(value.typed, value.unit)


def goal_words(field: Field, target: Target | None, system: str) -> str:
    """`-1.5° ± 0.2°`, as it was typed, as with values."""
    if target is None:
        return ""
    if target.unit == field.unit(system):
        ends = (with_unit(typed, target.unit) for typed in (target.typed, target.tolerance_typed))
    else:
        ends = (figure_words(field, typed, system) for typed in (target.amount, target.tolerance))
    return " ± ".join(ends)


def derived_rows(line: KindLine, system: str) -> tuple[tuple[str, str], ...]:
    """What follows from the values: label and figure."""
    return derived_of(line.kind.key, line.amounts, system)


def derived_of(key: str, amounts: dict[str, int | None], system: str) -> tuple[tuple[str, str], ...]:
    return tuple((line.label, derived_words(line.amount, line.unit, system)) for line in derived(key, amounts))


def condition_rows(reading: Reading, system: str) -> tuple[tuple[str, str], ...]:
    """What was written beside it; what was not is left out."""
    rows = [
        ("Instrument", reading.instrument),
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


def void_words(line: KindLine, garage: Garage, at: datetime) -> str:
    """Which job made it void and when; nothing while it stands."""
    if line.state != VOID or line.work is None:
        return ""
    when = moment_words(line.work.ended, ZoneInfo(garage.time_zone), at)
    finished = f"“{line.work.title}” was finished {when}"
    if line.through:
        return f"It rests on {line.through.lower()}: {finished}, after that was taken."
    return f"{finished}, after it was taken."


def out_words(line: KindLine, system: str) -> str:
    """Each value that is out, against its target; the checks that failed."""
    outside = []
    for field in line.kind.fields:
        if line.judged_value(field.slug) != OUT:
            continue
        value = value_words(field, line.values.get(field.slug), system)
        goal = goal_words(field, line.targets.get(field.slug), system)
        outside.append(f"{field.label} {value}" + (f", wanted {goal}" if goal else ""))
    return f"{'; '.join(outside)}." if outside else ""


def note_words(line: KindLine) -> str:
    return lacking_words(line.lacking)

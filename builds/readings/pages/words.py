"""Readings in words: values as they were typed, conditions, why one lapsed, what is out."""

from collections.abc import Iterable
from datetime import datetime
from zoneinfo import ZoneInfo

from builds.readings.engine.conditions import lacking_words
from builds.readings.engine.derived import derived
from builds.readings.engine.fields import CHECK, TEXT, Field
from builds.readings.engine.figures import derived_words, figure_words
from builds.readings.engine.judge import OUT
from builds.readings.engine.limits import MARKS, OFF, SORTS
from builds.readings.engine.signs import with_sign
from builds.readings.engine.void import FINISHED, LEFT, MISSING, OLD, RAN, STANDS, VOID, WRITTEN
from builds.readings.facts.readings import KindLine
from builds.readings.models.reading import Reading, ReadingValue
from builds.readings.models.target import Target
from builds.work.engine.running import Run
from garage.engine.gear import Judged
from garage.engine.moments import moment_words
from garage.engine.said import says_unit
from garage.engine.units import UNITS, quantity_words, unit_for
from garage.models import Garage


def value_words(field: Field, value: ReadingValue | None, system: str) -> str:
    """In the garage's units, and beside it as it was typed where that names a unit of its own."""
    if value is None:
        return ""
    if field.type == TEXT:
        return value.typed
    words = figure_words(field, value.amount or 0, system)
    told = field.type != CHECK and says_unit(value.typed)
    return f"{words} ({value.typed})" if told else words


def goal_words(field: Field, target: Target | None, system: str) -> str:
    """`-1.5° ± 0.2°`, `at least 10 mm`, `1.2 bar to 3 bar`."""
    if target is None:
        return ""
    first = figure_words(field, target.amount, system)
    if target.second is None:
        return f"{SORTS[target.sort]} {first}"
    second = figure_words(field, target.second, system)
    return f"{first} ± {second}" if target.sort == OFF else f"{first} to {second}"


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


ENDS = {FINISHED: "was finished", LEFT: "was worked on until", WRITTEN: "was written down"}


def lapse_words(line: KindLine, garage: Garage, at: datetime) -> str:
    """Why what was taken counts no more; nothing while it stands."""
    zone = ZoneInfo(garage.time_zone)
    if line.state == RAN and line.run is not None:
        return _run_words(line.run, moment_words(line.run.since, zone, at))
    if line.state == OLD and line.reading is not None and line.days is not None:
        taken = moment_words(line.reading.at, zone, at)
        return f"It was taken {taken}, and counts for {line.days} day{'s' * (line.days > 1)}."
    if line.state == VOID and line.work is not None:
        ended = f"“{line.work.title}” {ENDS[line.work.end]} {moment_words(line.work.ended, zone, at)}"
        if line.through:
            return f"It rests on {line.through.lower()}: {ended}, after that was taken."
        return f"{ended}, after it was taken."
    return ""


def _run_words(run: Run, when: str) -> str:
    if run.told:
        return f"The car ran at {run.event} ({when}) after it was taken."
    return f"{run.event} was over {when}, after it was taken, and nobody has said whether the car ran."


def out_words(line: KindLine, system: str) -> str:
    """Each value that is out, against its target; the checks that failed."""
    outside = []
    for field in line.kind.fields:
        if line.judged_value(field.slug) != OUT:
            continue
        value = value_words(field, line.values.get(field.slug), system)
        goal = goal_words(field, line.targets.get(field.slug), system)
        outside.append(f"{field.label} {value}" + (f", wanted {goal}" if goal else ""))
    return f"{with_sign('; '.join(outside), line.kind.slug)}." if outside else ""


def instrument_words(judged: Judged | None) -> str:
    """That what it was taken with was out of its date; nothing where it was not."""
    return f"What it was taken with was out of its date: {judged.sentence}" if judged else ""


NOTE = "note"
# How a reading is said to stand; what lapsed is to be measured again.
STATE_WORDS = {
    MISSING: "never taken",
    VOID: "void",
    RAN: "not known",
    OLD: "too old",
    NOTE: "a note only",
    STANDS: "stands",
}


def state_of(line: KindLine, garage: Garage, at: datetime) -> tuple[str, str]:
    """Which of `STATE_WORDS` holds, and why in words; no words for what stands or was never taken."""
    if line.state == STANDS and line.only_a_note:
        return NOTE, note_words(line)
    return line.state, lapse_words(line, garage, at)


def note_words(line: KindLine) -> str:
    """Why it is only a note, all of it."""
    raced = f"Not as raced: {', '.join(line.not_as_raced)}." if line.not_as_raced else ""
    stripped = "The car was stripped when it was taken." if line.reading and line.reading.stripped else ""
    return " ".join(filter(None, [lacking_words(line.lacking), raced, stripped]))

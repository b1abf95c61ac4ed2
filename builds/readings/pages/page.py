"""All that the pages of a car's readings say."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.readings.engine.judge import NOT_JUDGED, OUT, judge, judge_all
from builds.readings.engine.void import MISSING, VOID
from builds.readings.facts.readings import KindLine, readings_of
from builds.readings.models.reading import Reading
from builds.readings.pages.words import (
    condition_rows,
    derived_of,
    goal_words,
    note_words,
    out_words,
    value_words,
    void_words,
)
from garage.engine.moments import moment_words
from garage.models import Vehicle


@dataclass(frozen=True)
class KindRow:
    """One line of the list: how the newest reading of a kind stands."""

    key: str
    label: str
    required: bool
    state: str
    word: str
    words: str
    job_url: str
    judged: str
    out: str
    values: tuple[tuple[str, str], ...]
    derived: tuple[tuple[str, str], ...]
    taken: str
    by: str


@dataclass(frozen=True)
class HistoryRow:
    """A reading once taken; `struck` says who struck it out, when and why."""

    reading: Reading
    when: str
    by: str
    values: tuple[tuple[str, str, str], ...]
    derived: tuple[tuple[str, str], ...]
    conditions: tuple[tuple[str, str], ...]
    judged: str
    struck: str


@dataclass(frozen=True)
class ReadingsView:
    required: bool
    rows: tuple[KindRow, ...]
    others: tuple[KindRow, ...]


def list_view(vehicle: Vehicle, at: datetime) -> ReadingsView:
    """Kinds that were taken, are required or have a target; the others apart, all in order."""
    car = readings_of(vehicle.garage, [vehicle])[vehicle.pk]
    told = {key: bool(line.reading or line.required or line.targets) for key, line in
            car.lines.items()}  # fmt: skip
    rows = {key: kind_row(line, vehicle, at) for key, line in car.lines.items()}
    return ReadingsView(
        car.required is not None,
        tuple(kind_line for key, kind_line in rows.items() if told[key]),
        tuple(kind_line for key, kind_line in rows.items() if not told[key]),
    )


def kind_row(line: KindLine, vehicle: Vehicle, at: datetime) -> KindRow:
    garage, reading = vehicle.garage, line.reading
    state, word, words = line.state, "stands", ""
    if state == MISSING:
        word = "never taken"
    elif state == VOID:
        word, words = "void", void_words(line, garage, at)
    elif line.lacking:
        state, word, words = "note", "a note", note_words(line)
    return KindRow(
        key=line.kind.key,
        label=line.kind.label,
        required=line.required,
        state=state,
        word=word,
        words=words,
        job_url=reverse("job_page", args=[line.work.id]) if line.work else "",
        judged=line.judged if reading else "",
        out=out_words(line, garage.units) if reading and line.judged == OUT else "",
        values=tuple(
            (field.label, value_words(field, line.values[field.slug], garage.units))
            for field in line.kind.fields
            if field.slug in line.values
        ),
        derived=derived_of(line.kind.key, line.amounts, garage.units),
        taken=moment_words(reading.at, ZoneInfo(garage.time_zone), at) if reading else "",
        by=reading.by.name if reading else "",
    )


def history_rows(line: KindLine, vehicle: Vehicle, readings: Iterable[Reading], at: datetime) -> list[HistoryRow]:
    """Readings with their values and people at hand; judged by the targets of today."""
    return [_history(line, vehicle, reading, at) for reading in readings]


def _history(line: KindLine, vehicle: Vehicle, reading: Reading, at: datetime) -> HistoryRow:
    garage, kind = vehicle.garage, line.kind
    zone = ZoneInfo(garage.time_zone)
    values = {value.field: value for value in reading.values.all()}
    amounts = {slug: value.amount for slug, value in values.items()}
    struck = ""
    if reading.struck_at and reading.struck_by:
        when = moment_words(reading.struck_at, zone, at)
        struck = f"Struck out by {reading.struck_by.name}, {when}: {reading.struck_because}"
    return HistoryRow(
        reading,
        moment_words(reading.at, zone, at),
        reading.by.name,
        tuple(
            (
                field.label,
                value_words(field, values[field.slug], garage.units),
                _judged(line, field.slug, amounts),
            )
            for field in kind.fields
            if field.slug in values
        ),
        derived_of(kind.key, amounts, garage.units),
        condition_rows(reading, garage.units),
        "" if struck else judge_all(kind.fields, amounts, line.goals),
        struck,
    )


def _judged(line: KindLine, slug: str, amounts: dict[str, int | None]) -> str:
    field = next(known for known in line.kind.fields if known.slug == slug)
    judged = judge(field, amounts.get(slug), line.goals.get(slug))
    return "" if judged == NOT_JUDGED else judged


def goal_rows(line: KindLine, system: str) -> tuple[tuple[str, str], ...]:
    return tuple(
        (field.label, goal_words(field, line.targets[field.slug], system))
        for field in line.kind.fields
        if field.slug in line.targets
    )

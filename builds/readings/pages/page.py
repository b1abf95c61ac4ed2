"""All that the pages of a car's readings say."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.readings.actions.readings import refuse_strike
from builds.readings.engine.judge import NOT_JUDGED, OUT, judge, judge_all
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.vocabulary import names_of
from builds.readings.engine.void import LAPSED
from builds.readings.engine.why_not import goal_words, out_words, value_words
from builds.readings.facts.instruments import Instrument, instruments_of, run_out
from builds.readings.facts.readings import readings_of
from builds.readings.models.reading import Reading
from builds.readings.pages.corners import FromAbove, from_above
from builds.readings.pages.setup import setup_kinds
from builds.readings.pages.words import (
    STATE_WORDS,
    condition_rows,
    derived_of,
    instrument_words,
    mark_words,
    read_words,
    state_of,
)
from garage.engine.moments import moment_words
from garage.models import Membership, Vehicle


@dataclass(frozen=True)
class KindRow:
    """One line of the list: how the newest reading of a kind stands. What lapsed is not judged any more, and `out`
    still says what was out."""

    key: str
    label: str
    sign: str
    required: bool
    words: str
    job_url: str
    lapsed: bool
    standing: str
    out: str
    values: tuple[tuple[str, str], ...]
    derived: tuple[tuple[str, str], ...]
    taken: str
    by: str
    instrument: str


@dataclass(frozen=True)
class HistoryRow:
    """A reading once taken; `struck` says who struck it out, when and why, `lapsed` how it counts no more.

    `strikes` when whoever looks may strike it out.
    """

    reading: Reading
    when: str
    by: str
    values: tuple[tuple[str, str, str], ...]
    derived: tuple[tuple[str, str], ...]
    conditions: tuple[tuple[str, str], ...]
    instrument: str
    judged: str
    struck: str
    lapsed: str
    strikes: bool


@dataclass(frozen=True)
class ReadingsView:
    required: bool
    limits_wanted: str
    above: FromAbove
    rows: tuple[KindRow, ...]
    others: tuple[KindRow, ...]


def list_view(vehicle: Vehicle, at: datetime) -> ReadingsView:
    """Kinds that were taken, are required or have a target; the others apart, all in order."""
    car = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk]
    told = {key: bool(line.reading or line.required or line.targets) for key, line in
            car.lines.items()}  # fmt: skip
    rows = {key: kind_row(line, vehicle, at) for key, line in car.lines.items()}
    return ReadingsView(
        car.required is not None,
        names_of(line.kind for line in car.required_lines if line.without_limit),
        from_above(setup_kinds(car.lines.values(), vehicle, at)),
        tuple(kind_line for key, kind_line in rows.items() if told[key]),
        tuple(kind_line for key, kind_line in rows.items() if not told[key]),
    )


def kind_row(line: KindLine, vehicle: Vehicle, at: datetime) -> KindRow:
    garage, reading = vehicle.garage, line.reading
    state, words = state_of(line, garage, at)
    lapsed = state in LAPSED
    return KindRow(
        key=line.kind.key,
        label=line.kind.label,
        sign=line.kind.sign,
        required=line.required,
        words=words,
        job_url=reverse("job_page", args=[line.work.id]) if line.work and line.work.id else "",
        lapsed=lapsed,
        standing=", ".join(
            filter(None, [STATE_WORDS[state], "measure again" if lapsed else line.judged if reading else ""])
        ),
        out=out_words(line, garage.units) if reading and line.judged == OUT else "",
        values=tuple(
            (field.label, read_words(line, field, garage, at))
            for field in line.kind.fields
            if field.slug in line.values
        ),
        derived=derived_of(line.kind.key, line.amounts, garage.units),
        taken=moment_words(reading.at, ZoneInfo(garage.time_zone), at) if reading else "",
        by=reading.by.name if reading else "",
        instrument=instrument_words(line.instrument),
    )


def history_rows(line: KindLine, member: Membership, readings: Iterable[Reading], at: datetime) -> list[HistoryRow]:
    """Readings with their values and people at hand; judged by the targets of today, for whoever looks."""
    instruments = instruments_of(member.garage)
    return [_history(line, member, reading, at, instruments) for reading in readings]


def _history(
    line: KindLine, member: Membership, reading: Reading, at: datetime, instruments: tuple[Instrument, ...]
) -> HistoryRow:
    garage, kind = member.garage, line.kind
    zone = ZoneInfo(garage.time_zone)
    values = {value.field: value for value in reading.values.all()}
    amounts = {slug: value.amount for slug, value in values.items()}
    struck, lapsed = "", ""
    if line.state in LAPSED and line.reading is not None and line.reading.pk == reading.pk:
        lapsed = f"{STATE_WORDS[line.state]}: measure again"
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
                "" if lapsed else _judged(line, field.slug, amounts),
            )
            for field in kind.fields
            if field.slug in values
        ),
        derived_of(kind.key, amounts, garage.units),
        condition_rows(reading, garage.units),
        instrument_words(run_out(reading.instrument, reading.at, instruments, zone)),
        "" if struck or lapsed else judge_all(kind.fields, amounts, line.goals),
        struck,
        lapsed,
        not struck and refuse_strike(reading, member) is None,
    )


def _judged(line: KindLine, slug: str, amounts: dict[str, int | None]) -> str:
    field = next(known for known in line.kind.fields if known.slug == slug)
    judged = judge(field, amounts.get(slug), line.goals.get(slug))
    return "" if judged == NOT_JUDGED else judged


def goal_rows(line: KindLine, system: str) -> tuple[tuple[str, str], ...]:
    """What each figure should be, and whose limit it is."""
    return tuple(
        (field.label, f"{goal_words(field, target, system)} ({mark_words([target])})")
        for field in line.kind.fields
        if (target := line.targets.get(field.slug))
    )

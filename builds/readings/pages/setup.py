"""A car's setup as it was last read: rows for the printed setup sheet."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from builds.readings.engine.judge import JUDGED_LABELS
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.signs import with_sign
from builds.readings.engine.vocabulary import names_of
from builds.readings.engine.void import LAPSED
from builds.readings.engine.why_not import goal_words, value_words
from builds.readings.facts.readings import readings_of
from builds.readings.pages.words import (
    as_of,
    derived_rows,
    instrument_words,
    mark_words,
    state_of,
    stood_rows,
)
from garage.engine.moments import paper_words
from garage.models import Vehicle


@dataclass(frozen=True)
class SetupValue:
    """One value in the garage's units; `judged` is in, out or not judged, `slug` which of the kind's it is,
    `as_of` when it was read where the newest reading left it out."""

    label: str
    value: str
    target: str
    judged: str
    slug: str = ""
    as_of: str = ""


@dataclass(frozen=True)
class SetupKind:
    """A kind of reading: `state` is missing, void, ran, old, note or stands, `words` says why.

    Values that `lapsed` are struck through, and nothing is judged by them.

    `name` is what it is called within a sentence, `tool` what it was taken with, `limits` whose they are.
    `derived` and `conditions` are pairs of label and words; `note` is what was written beside it.
    """

    key: str
    label: str
    state: str
    words: str
    required: bool
    taken: str
    by: str
    values: tuple[SetupValue, ...]
    derived: tuple[tuple[str, str], ...]
    conditions: tuple[tuple[str, str], ...]
    note: str
    limits: str = ""
    instrument: str = ""
    name: str = ""
    tool: str = ""

    @property
    def lapsed(self) -> bool:
        return self.state in LAPSED


@dataclass(frozen=True)
class SetupSheet:
    vehicle: Vehicle
    at: str
    kinds: tuple[SetupKind, ...]


def setup_sheet(vehicle: Vehicle, at: datetime) -> SetupSheet:
    """Every kind that was ever taken or is required or has a target, in measuring order."""
    lines = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk].lines.values()
    return SetupSheet(vehicle, paper_words(at, ZoneInfo(vehicle.garage.time_zone)), setup_kinds(lines, vehicle, at))


def setup_kinds(lines: Iterable[KindLine], vehicle: Vehicle, at: datetime) -> tuple[SetupKind, ...]:
    zone = ZoneInfo(vehicle.garage.time_zone)
    wanted = [line for line in lines if line.reading or line.required or line.targets]
    return tuple(_kind(line, vehicle, at, zone) for line in wanted)


def _kind(line: KindLine, vehicle: Vehicle, at: datetime, zone: ZoneInfo) -> SetupKind:
    system, reading = vehicle.garage.units, line.reading
    state, words = state_of(line, vehicle.garage, at)
    return SetupKind(
        key=line.kind.key,
        label=with_sign(line.kind.label, line.kind.slug),
        state=state,
        words=words,
        required=line.required,
        taken=paper_words(reading.at, zone) if reading else "",
        by=reading.by.name if reading else "",
        values=tuple(
            SetupValue(
                field.label,
                value_words(field, line.values.get(field.slug), system),
                goal_words(field, line.targets.get(field.slug), system),
                JUDGED_LABELS[line.judged_value(field.slug)] if reading and state not in LAPSED else "",
                field.slug,
                as_of(line, field, vehicle.garage, at),
            )
            for field in line.kind.fields
        ),
        derived=derived_rows(line, system),
        conditions=stood_rows(reading, system) if reading else (),
        note=reading.note if reading else "",
        instrument=instrument_words(line.instrument),
        limits=mark_words(line.targets.values()),
        name=names_of([line.kind]),
        tool=reading.instrument if reading else "",
    )

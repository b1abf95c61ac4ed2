"""Why a reading does not count, in one sentence: it lapsed, it is out of its limits, it is only a note."""

from collections.abc import Collection, Mapping
from datetime import datetime, tzinfo
from typing import Protocol

from builds.readings.engine.conditions import lacking_words
from builds.readings.engine.fields import CHECK, TEXT, Field
from builds.readings.engine.figures import figure_words
from builds.readings.engine.judge import OUT
from builds.readings.engine.limits import OFF, SORTS
from builds.readings.engine.signs import with_sign
from builds.readings.engine.vocabulary import READINGS
from builds.readings.engine.void import (
    AHEAD,
    FINISHED,
    FOUND,
    GOES_ON,
    LEFT,
    OLD,
    PULLED,
    RAN,
    READ_FAILED,
    READ_OUT,
    VOID,
    WRITTEN,
    FinishedWork,
)
from builds.work.engine.running import Run
from garage.engine.moments import moment_words
from garage.engine.said import says_unit

ENDS = {
    FINISHED: "was finished",
    LEFT: "was worked on until",
    GOES_ON: "has been in hand since",
    WRITTEN: "was written down",
    PULLED: "came off",
    FOUND: "was found",
    READ_OUT: "was read out of its limits",
    READ_FAILED: "failed",
}


class Value(Protocol):
    """A figure or a check (stored units) with what was typed for it."""

    amount: int | None
    typed: str


class Limit(Protocol):
    """Where a figure must lie (stored units); `sort` is one of `SORTS`."""

    sort: str
    amount: int
    second: int | None


class TakenKind(Protocol):
    @property
    def slug(self) -> str: ...
    @property
    def fields(self) -> tuple[Field, ...]: ...


class Taken(Protocol):
    """A reading as it stands: `through` is the reading (slug) that it rests on, `days` how old it may be."""

    @property
    def kind(self) -> TakenKind: ...
    @property
    def state(self) -> str: ...
    @property
    def taken_at(self) -> datetime | None: ...
    @property
    def work(self) -> FinishedWork | None: ...
    @property
    def through(self) -> str: ...
    @property
    def run(self) -> Run | None: ...
    @property
    def days(self) -> int | None: ...
    @property
    def stripped(self) -> bool: ...
    @property
    def lacking(self) -> Collection[str]: ...
    @property
    def not_as_raced(self) -> Collection[str]: ...
    @property
    def missing(self) -> Collection[str]: ...
    @property
    def values(self) -> Mapping[str, Value]: ...
    @property
    def targets(self) -> Mapping[str, Limit]: ...
    def judged_value(self, slug: str) -> str: ...


def value_words(field: Field, value: Value | None, system: str) -> str:
    """In the garage's units, and beside it as it was typed where that is said otherwise, with a unit."""
    if value is None:
        return ""
    if field.type == TEXT:
        return value.typed
    words = figure_words(field, value.amount or 0, system)
    otherwise = value.typed.replace(" ", "") != words.replace(" ", "")
    told = field.type != CHECK and says_unit(value.typed) and otherwise
    return f"{words} ({value.typed})" if told else words


def goal_words(field: Field, limit: Limit | None, system: str) -> str:
    """`-1.5° ± 0.2°`, `at least 10 mm`, `1.2 bar to 3 bar`."""
    if limit is None:
        return ""
    first = figure_words(field, limit.amount, system)
    if limit.second is None:
        return f"{SORTS[limit.sort]} {first}"
    second = figure_words(field, limit.second, system)
    return f"{first} ± {second}" if limit.sort == OFF else f"{first} to {second}"


def end_words(work: FinishedWork, zone: tzinfo, at: datetime) -> str:
    """`“New tie rods” was worked on until Tue 2 Mar 15:00`, by the clock of that zone."""
    moment = work.begun if work.end == GOES_ON and work.begun else work.ended
    return f"“{work.title}” {ENDS[work.end]} {moment_words(moment, zone, at)}"


def lapse_words(line: Taken, zone: tzinfo, at: datetime) -> str:
    """Why what was taken counts no more, with moments by the clock of that zone; nothing while it stands."""
    if line.state == RAN and line.run is not None:
        return _run_words(line.run, moment_words(line.run.since, zone, at))
    if line.state == AHEAD and line.taken_at is not None:
        return f"It was written down for {moment_words(line.taken_at, zone, at)}, and that is still to come."
    if line.state == OLD and line.taken_at is not None and line.days is not None:
        taken = moment_words(line.taken_at, zone, at)
        return f"It was taken {taken}, and counts for {line.days} day{'s' * (line.days > 1)}."
    if line.state == VOID and line.work is not None:
        ended = end_words(line.work, zone, at)
        what = "that" if line.through else "it"
        since = "" if line.work.end == GOES_ON else f", and {what} has not been taken since"
        return f"{f'It rests on {READINGS[line.through].label.lower()}: ' if line.through else ''}{ended}{since}."
    return ""


def _run_words(run: Run, when: str) -> str:
    if run.told:
        return f"The car ran {run.where} ({when}) after it was taken."
    return f"{run.event} was over {when}, after it was taken, and nobody has said whether the car ran."


def out_words(line: Taken, system: str) -> str:
    """Each value that is out, against its target; the checks that failed."""
    outside = []
    for field in line.kind.fields:
        if line.judged_value(field.slug) != OUT:
            continue
        value = value_words(field, line.values.get(field.slug), system)
        goal = goal_words(field, line.targets.get(field.slug), system)
        outside.append(f"{field.label} {value}" + (f", wanted {goal}" if goal else ""))
    return f"{with_sign('; '.join(outside), line.kind.slug)}." if outside else ""


def note_words(line: Taken) -> str:
    """Why it is only a note, all of it."""
    raced = f"Not as raced: {', '.join(line.not_as_raced)}." if line.not_as_raced else ""
    stripped = "The car was stripped or on stands when it was taken." if line.stripped else ""
    missing = f"Not measured: {', '.join(label.lower() for label in line.missing)}." if line.missing else ""
    return " ".join(filter(None, [missing, lacking_words(line.lacking), raced, stripped]))

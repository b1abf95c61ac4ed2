"""From a reading as it stands on a car to what the verdict is told of it."""

from collections.abc import Iterable, Iterator
from datetime import datetime, tzinfo
from typing import Protocol

from builds.readings.engine.judge import OUT
from builds.readings.engine.vocabulary import NamedKind, names_of
from builds.readings.engine.void import LAPSED, MISSING, RAN
from builds.readings.engine.why_not import Taken, TakenKind, lapse_words, note_words, out_words
from builds.verdict.engine.records import STANDS, ReadingFact
from garage.engine.gear import Judged


class RequiredKind(TakenKind, NamedKind, Protocol):
    """A kind of reading by its key; `follows` is the reading (slug) with which it goes void."""

    @property
    def key(self) -> str: ...
    @property
    def follows(self) -> str: ...


class RequiredLine(Taken, Protocol):
    """A reading that the car must have; `without_limit` holds figures that nothing judges."""

    @property
    def kind(self) -> RequiredKind: ...
    @property
    def judged(self) -> str: ...
    @property
    def failed(self) -> bool: ...
    @property
    def only_a_note(self) -> bool: ...
    @property
    def instrument(self) -> Judged | None: ...
    @property
    def known_since(self) -> datetime | None: ...
    @property
    def without_limit(self) -> tuple[object, ...]: ...


def reading_facts(lines: Iterable[RequiredLine], system: str, zone: tzinfo, at: datetime) -> Iterator[ReadingFact]:
    """Of each reading how it stands, then one of all that get their limits in one form.

    Figures in words of the `system` of units, moments by the clock of the zone.
    """
    required = tuple(lines)
    for line in required:
        state, words = _standing(line, system, zone, at)
        yield ReadingFact(line.kind.key, line.kind.label, state, words, line.kind.follows, line.known_since)
    if kinds := [line.kind for line in required if line.without_limit]:
        yield ReadingFact("", names_of(kinds), "no_limit")


def _standing(line: RequiredLine, system: str, zone: tzinfo, at: datetime) -> tuple[str, str]:
    if line.state == MISSING:
        return "missing", ""
    if line.state in LAPSED:
        asked = line.state == RAN and line.run is not None and not line.run.told
        return "asked" if asked else line.state, lapse_words(line, zone, at)
    if line.judged == OUT:
        return "failed" if line.failed else "out", out_words(line, system)
    if line.only_a_note:
        return "note", note_words(line)
    return ("instrument", line.instrument.sentence) if line.instrument else (STANDS, "")

"""What the verdict is told of readings, car by car."""

from collections.abc import Iterator
from datetime import datetime

from builds.readings.engine.judge import OUT
from builds.readings.engine.void import LAPSED, MISSING, RAN
from builds.readings.facts.kinds import names_of
from builds.readings.facts.readings import CarReadings, KindLine, readings_of
from builds.readings.models.target import RequiredReadings
from builds.readings.pages.words import lapse_words, note_words, out_words
from builds.verdict.engine import ReadingFact
from builds.verdict.engine.records import STANDS
from garage.models import Entry, Garage, Vehicle

FactsByCar = dict[int, tuple[ReadingFact, ...]]


def readings_facts(garage: Garage, cars: list[Vehicle], at: datetime, entries: dict[int, Entry]) -> FactsByCar:
    """Of each car (pk) that has its readings on record, those that it must have.

    A car left out has nothing on record, which is not known and therefore not fit: nobody said
    which readings it must have. `entries` play no part: a reading stands or not, whatever is next.
    """
    if not RequiredReadings.objects.filter(vehicle__in=cars).exists():
        return {}
    return {
        pk: (
            *(_fact(line, garage, at) for line in car.required_lines),
            *_without_limits(car),
        )
        for pk, car in readings_of(garage, cars, at).items()
        if car.required is not None
    }


def _without_limits(car: CarReadings) -> Iterator[ReadingFact]:
    """One of all readings that nothing says are right, since they get their limits in one form."""
    if kinds := [line.kind for line in car.required_lines if line.without_limit]:
        yield ReadingFact("", names_of(kinds), "no_limit")


def _fact(line: KindLine, garage: Garage, at: datetime) -> ReadingFact:
    state, words = STANDS, ""
    if line.state == MISSING:
        state = "missing"
    elif line.state in LAPSED:
        asked = line.state == RAN and line.run is not None and not line.run.told
        state, words = "asked" if asked else line.state, lapse_words(line, garage, at)
    elif line.judged == OUT:
        state, words = ("failed" if line.failed else "out"), out_words(line, garage.units)
    elif line.only_a_note:
        state, words = "note", note_words(line)
    return ReadingFact(line.kind.key, line.kind.label, state, words, line.kind.follows)

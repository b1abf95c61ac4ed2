"""What was found, in words and with its address."""

from dataclasses import dataclass, replace

from django.urls import reverse

from builds.find.engine import Index, indexed, meant
from builds.find.facts import Thing, things_of
from builds.readings.engine import READINGS
from builds.work.models.states import State
from garage.models import Garage
from garage.remembered import remembered

MOST = 20
READING = "reading"
KINDS = {
    "car": ("Car", "vehicle_page"),
    "person": ("Person", "person_page"),
    "event": ("Event", "event_page"),
    "job": ("Job", "job_page"),
    READING: ("Reading", "reading_page"),
    "part": ("Part", "part_page"),
}


@dataclass(frozen=True)
class FoundLine:
    """`says` what kind of thing it is, and beside which car, number or state; a reading leads to that of each car."""

    name: str
    url: str
    says: str
    cars: tuple[tuple[str, str], ...] = ()


def found_lines(garage: Garage, typed: str) -> list[FoundLine]:
    """No query where the names are remembered."""
    things, index = remembered(garage, "find", lambda: _named(garage))
    lines: dict[str, FoundLine] = {}
    for thing in (things[place] for place in meant(typed, index, len(things))):
        line = _line(thing)
        if thing.kind == READING:  # one line for all cars, where the nearest of them stands
            cars = lines[thing.key].cars if thing.key in lines else ()
            line = replace(lines.get(thing.key, line), cars=(*cars, (thing.beside, line.url)))
        elif len(lines) == MOST:
            break
        lines[thing.key or line.url] = line
    return [*lines.values()][:MOST]


def _named(garage: Garage) -> tuple[list[Thing], Index]:
    things = [thing._replace(name=_name(thing)) for thing in things_of(garage)]
    return things, indexed([f"{thing.name} {thing.beside}" for thing in things])


def _name(thing: Thing) -> str:
    return READINGS[thing.key].label if thing.kind == READING else thing.name


def _line(thing: Thing) -> FoundLine:
    word, page = KINDS[thing.kind]
    state = State(thing.state).label if thing.state else ""
    return FoundLine(
        thing.name,
        reverse(page, args=[thing.pk, thing.key] if thing.key else [thing.pk]),
        word if thing.kind == READING else ", ".join(filter(None, [word, thing.beside, state])),
    )

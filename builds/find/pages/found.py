"""What was found, in words and with its address."""

from collections.abc import Collection
from dataclasses import dataclass, replace

from django.urls import reverse

from builds.bench.catalogue import SUMS
from builds.find.engine import Index, indexed, meant
from builds.find.facts import Thing, things_of
from builds.find.pages.garage_pages import BY_PAGE, CAR_PAGES, address, may_open
from builds.readings.engine import READINGS
from builds.steps.facts.looks import waiting_for_look
from builds.work.engine.state_words import UNSIGNED
from builds.work.models.states import State
from garage.models import Garage, Membership
from garage.remembered import remembered

MOST = 20
READING, PAGE, SUM, RECIPE = "reading", "page", "sum", "recipe"
KINDS = {
    "car": ("Car", "vehicle_page"),
    "person": ("Person", "person_page"),
    "event": ("Event", "event_page"),
    "job": ("Job", "job_page"),
    READING: ("Reading", "reading_page"),
    "part": ("Part", "part_page"),
    RECIPE: ("Recipe", "recipe_page"),
    SUM: ("Sum", "sum_page"),
    PAGE: ("Page", ""),
}


@dataclass(frozen=True)
class FoundLine:
    """`says` what kind of thing it is, and beside which car, number or state; of what each car has one, `cars`."""

    name: str
    url: str
    says: str
    cars: tuple[tuple[str, str], ...] = ()


def found_lines(me: Membership, typed: str) -> list[FoundLine]:
    """No query where all is remembered, but for pages that only some may open."""
    things, index = remembered(me.garage, "find", lambda: _named(me.garage))
    unsigned = waiting_for_look(me.garage)
    lines: dict[str, FoundLine] = {}
    for thing in (things[place] for place in meant(typed, index, len(things))):
        if thing.kind == PAGE and not may_open(me, thing.key):
            continue
        line, one = _line(thing, unsigned), f"{thing.kind} {thing.key or thing.pk}"
        if thing.key and thing.pk:  # one line for all cars, where the nearest of them stands
            cars = lines[one].cars if one in lines else ()
            line = replace(lines.get(one, line), cars=(*cars, (thing.beside, line.url)))
        elif len(lines) == MOST:
            break
        lines[one] = line
    return [*lines.values()][:MOST]


def _named(garage: Garage) -> tuple[list[Thing], Index]:
    things = [thing._replace(name=_name(thing)) for thing in things_of(garage)]
    things += [Thing(SUM, 0, one.title, one.question, key=slug) for slug, one in SUMS.items()]
    cars = [(thing.pk, thing.name) for thing in things if thing.kind == "car"]
    of_cars = {known.page for known in CAR_PAGES}
    for page, known in BY_PAGE.items():
        if page in of_cars:
            things += [Thing(PAGE, pk, known.name, car, key=page) for pk, car in cars]
        else:
            things.append(Thing(PAGE, 0, known.name, known.others, key=page))
    return things, indexed([(thing.name, thing.beside) for thing in things])


def _name(thing: Thing) -> str:
    return READINGS[thing.key].label if thing.kind == READING else thing.name


def _line(thing: Thing, unsigned: Collection[int]) -> FoundLine:
    word, page = KINDS[thing.kind]
    state = State(thing.state).label if thing.state else ""
    if thing.kind == "job" and thing.pk in unsigned:
        state = UNSIGNED
    told = not thing.key  # what is known by its key has its car, or other words for it, beside its name
    return FoundLine(
        thing.name,
        address(thing.key, thing.pk) if thing.kind == PAGE else _url(thing, page),
        ", ".join(filter(None, [word, thing.beside, state])) if told else word,
    )


def _url(thing: Thing, page: str) -> str:
    return reverse(page, args=[named for named in (thing.pk, thing.key) if named])

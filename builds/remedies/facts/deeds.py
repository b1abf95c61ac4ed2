"""Deeds: things that can be done to a garage so that a car makes it, as a page sends them."""

import re
from dataclasses import dataclass
from datetime import date

MOST_DEEDS = 24
NUMBER = re.compile(r"-?\d{1,12}", re.ASCII)


@dataclass(frozen=True)
class Shape:
    """How many numbers a deed has (None: two or more), and whether it has a day."""

    numbers: int | None
    has_day: bool = False


SHAPES = {
    "again": Shape(0),  # plan anew, nothing else
    "session": Shape(3, True),  # membership, from minute, until minute
    "off": Shape(1, True),  # membership
    "hands": Shape(3, True),  # skill or 0, from minute, until minute
    "defer": Shape(None),  # entry of the late car, jobs
    "part": Shape(1, True),  # need; the day on which it is expected then
    "heat": Shape(3, True),  # from minute, until minute, thousandths of a °C
    "hold": Shape(1, True),  # thousandths of a °C, from that day on
    "room": Shape(1),  # station
    "home": Shape(1),  # entry
    "enter": Shape(3),  # event, vehicle, weight
    "weigh": Shape(2),  # entry, weight
}


@dataclass(frozen=True)
class Deed:
    """`numbers` and `day` as SHAPES has them; rows by pk, minutes of the wall's clock."""

    kind: str
    numbers: tuple[int, ...] = ()
    day: date | None = None

    @property
    def code(self) -> str:
        parts = [self.kind, *map(str, self.numbers)]
        return ".".join([*parts, self.day.isoformat()] if self.day else parts)


def parse(code: str) -> Deed:
    """What `Deed.code` wrote. ValueError for anything else."""
    kind, *rest = code.split(".")
    shape = SHAPES.get(kind)
    if shape is None or len(code) > 400:
        raise ValueError("no such deed")
    day = date.fromisoformat(rest.pop()) if shape.has_day and rest else None
    numbers = tuple(_number(part) for part in rest)
    fits = len(numbers) >= 2 if shape.numbers is None else len(numbers) == shape.numbers
    if not fits or shape.has_day != (day is not None):
        raise ValueError("a deed of another shape")
    return Deed(kind, numbers, day)


def _number(text: str) -> int:
    if not NUMBER.fullmatch(text):
        raise ValueError("not a number")
    return int(text)


def codes(deeds: tuple[Deed, ...]) -> str:
    return " ".join(deed.code for deed in deeds)


def parse_all(text: str) -> tuple[Deed, ...]:
    """Codes with spaces between them. ValueError when one is none, or there are too many."""
    found = tuple(parse(code) for code in text.split())
    if len(found) > MOST_DEEDS:
        raise ValueError("too many deeds")
    return found

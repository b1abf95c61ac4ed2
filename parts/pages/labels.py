"""What stands on labels: the words of a place or a part, its code, and the address behind it."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse

from garage.public import public
from parts.facts.search import matching
from parts.models import Part, Place

# A file of so many is drawn in a second or two, and nobody sticks on more at once.
MOST = 300


@dataclass(frozen=True)
class CodeLabel:
    """`note` is a second line, which may be empty."""

    title: str
    note: str
    code: str
    address: str


def labels_of(places: Iterable[Place], parts: Iterable[Part]) -> list[CodeLabel]:
    """Places first, each in the order given; no query."""
    return [*map(_place, places), *map(_part, parts)]


def all_in(place: Place) -> list[CodeLabel]:
    """The label of a place and of every kind of part that lies there; one query."""
    return labels_of([place], matching(place.garage, "", place))


def _address(code: str) -> str:
    return public(reverse("code_page", args=[code]))


def _place(place: Place) -> CodeLabel:
    return CodeLabel(place.name, place.get_kind_display(), place.code, _address(place.code))


def _part(part: Part) -> CodeLabel:
    condition = part.get_condition_display() if part.single else ""
    note = ", ".join(filter(None, [part.number, condition]))
    return CodeLabel(part.name, note, part.code, _address(part.code))

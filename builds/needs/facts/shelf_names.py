"""What parts are called, found by the words of their names."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import starmap
from typing import NamedTuple

from builds.recipes.engine.eats import words_of
from garage.models import Garage
from garage.remembered import remembered
from parts.models import Part


class NamedPart(NamedTuple):
    """A part (pk) by its name; `single` for one of a kind."""

    pk: int
    name: str
    unit: str
    single: bool


@dataclass(frozen=True)
class ShelfNames:
    """All parts kept, and those that have a word in their name."""

    parts: Sequence[NamedPart]
    by_word: Mapping[str, Sequence[NamedPart]]

    def near(self, name: str) -> Sequence[NamedPart]:
        """Those that have its rarest word: no other is called so, nor a kind of it."""
        return min((self.by_word.get(word, ()) for word in words_of(name)), key=len, default=self.parts)


def shelf_names(garage: Garage) -> ShelfNames:
    """One query, none where they are remembered."""
    return remembered(garage, "shelf_names", lambda: _read(garage))


def _read(garage: Garage) -> ShelfNames:
    kept = Part.objects.in_garage(garage).kept().values_list("pk", "name", "unit", "single")
    parts, by_word = list(starmap(NamedPart, kept)), defaultdict[str, list[NamedPart]](list)
    for part in parts:
        for word in words_of(part.name):
            by_word[word].append(part)
    return ShelfNames(parts, dict(by_word))

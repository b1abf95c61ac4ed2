"""Parts as lists show them: where each is, what it costs, and what it fits."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from garage.engine.money import money_words
from garage.models import Garage
from parts.engine.fit import FitVerdict, Interface, fits_all, note, read_all, words
from parts.engine.ledger import STORES
from parts.engine.words import amount_words
from parts.models import Balance, Part, Place


@dataclass(frozen=True)
class Where:
    """So much of a part in one place."""

    place: Place
    quantity: int
    words: str


@dataclass(frozen=True)
class Face:
    """One thing that a part fits: in words, and what is good to know beside it."""

    words: str
    note: str


@dataclass(frozen=True)
class PartRow:
    """A part with where it is; `low` when the stores hold less than its level.

    `fit` is how it answers what was asked for, None when nothing was.
    """

    part: Part
    where: tuple[Where, ...]
    scrapped: str
    low: bool
    cost: str
    faces: tuple[Face, ...] = ()
    fit: FitVerdict | None = None

    @property
    def total(self) -> str:
        """All that there is of it, when that is in more than one place."""
        if len(self.where) < 2:
            return ""
        return amount_words(self.part.unit, sum(where.quantity for where in self.where))


@dataclass(frozen=True)
class PlaceRows:
    """Parts that lie in one place first of all; `place` empty for those that lie nowhere."""

    place: str
    rows: tuple[PartRow, ...]


def places_of(rows: Iterable[PartRow]) -> list[PlaceRows]:
    """Rows that come by place, gathered under each."""
    together = groupby(rows, lambda row: str(row.where[0].place) if row.where else "")
    return [PlaceRows(place, tuple(there)) for place, there in together]


def rows_of(parts: Iterable[Part], garage: Garage, wants: Sequence[Interface] = ()) -> list[PartRow]:
    """One query besides that of the parts themselves; `wants` is what they must fit."""
    listed = list(parts)
    held = Balance.objects.by_part(listed)
    return [_row(part, held[part.pk], garage, wants) for part in listed]


def _row(part: Part, held: list[Balance], garage: Garage, wants: Sequence[Interface]) -> PartRow:
    offered = read_all(part.interfaces)
    stored = sum(balance.quantity for balance in held if balance.place.kind in STORES)
    scrapped = sum(balance.quantity for balance in held if balance.place.kind == Place.Kind.SCRAP)
    return PartRow(
        part,
        tuple(
            Where(balance.place, balance.quantity, amount_words(part.unit, balance.quantity))
            for balance in held
            if balance.place.kind != Place.Kind.SCRAP
        ),
        amount_words(part.unit, scrapped) if scrapped else "",
        part.low_level is not None and stored < part.low_level,
        "" if part.cost_minor is None else money_words(part.cost_minor, garage.currency),
        tuple(Face(words(face), note(face)) for face in offered),
        fits_all(wants, offered) if wants else None,
    )

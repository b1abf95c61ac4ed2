"""What is where: parts with the places that hold them."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.db.models import Q, QuerySet

from garage.engine.money import money_words
from garage.models import Garage
from parts.engine.fit import Interface, Verdict, fits_all, note, read_all, wish, words
from parts.engine.ledger import STORES
from parts.engine.words import amount_words
from parts.models import Balance, Part, Place

MOST_WORDS = 10


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
    fit: Verdict | None = None

    @property
    def total(self) -> str:
        """All that there is of it, when that is in more than one place."""
        if len(self.where) < 2:
            return ""
        return amount_words(self.part.unit, sum(each.quantity for each in self.where))


def rows_of(parts: Iterable[Part], garage: Garage, wants: Sequence[Interface] = ()) -> list[PartRow]:
    """One query besides that of the parts themselves; `wants` is what they must fit."""
    found = list(parts)
    held: dict[int, list[Balance]] = defaultdict(list)
    rows = Balance.objects.filter(part__in=found, outside=False, quantity__gt=0)
    for row in rows.select_related("place").order_by("place__walk_order", "place__name"):
        held[row.part_id].append(row)
    return [_row(part, held[part.pk], garage, wants) for part in found]


def _row(part: Part, held: list[Balance], garage: Garage, wants: Sequence[Interface]) -> PartRow:
    offered = read_all(part.interfaces)
    stored = sum(row.quantity for row in held if row.place.kind in STORES)
    scrapped = sum(row.quantity for row in held if row.place.kind == Place.Kind.SCRAP)
    return PartRow(
        part,
        tuple(
            Where(row.place, row.quantity, amount_words(part.unit, row.quantity))
            for row in held
            if row.place.kind != Place.Kind.SCRAP
        ),
        amount_words(part.unit, scrapped) if scrapped else "",
        part.low_level is not None and stored < part.low_level,
        "" if part.cost_minor is None else money_words(part.cost_minor, garage.currency),
        tuple(Face(words(each), note(each)) for each in offered),
        fits_all(wants, offered) if wants else None,
    )


def judged(garage: Garage, wants: Sequence[Interface]) -> dict[int, Verdict]:
    """Of each part (pk) that says anything of what it fits, whether it answers the wants."""
    rows = Part.objects.in_garage(garage).kept().values_list("pk", "interfaces")
    return {pk: fits_all(wants, read_all(kept)) for pk, kept in rows.iterator() if kept}


def _matches(text: str) -> Q:
    """Every word, in name, number, code, where it came from or supplier."""
    matches = Q()
    for word in text.split()[:MOST_WORDS]:
        matches &= (
            Q(name__icontains=word)
            | Q(number__icontains=word)
            | Q(code__iexact=word)
            | Q(provenance__icontains=word)
            | Q(supplier__icontains=word)
        )
    return matches


def found(garage: Garage, text: str, place: Place | None = None, low: bool = False) -> QuerySet[Part]:
    """Parts that match every word, and those that fit the sizes among the words."""
    rows = Part.objects.in_garage(garage).kept().order_by("name", "pk")
    if low:
        rows = rows.low()
    matches, asked = _matches(text), wish(text)
    if asked.wants:
        fit = [pk for pk, each in judged(garage, asked.wants).items() if each.as_asked]
        matches |= Q(pk__in=fit) & _matches(asked.rest)
    rows = rows.filter(matches)
    if place:
        there = Balance.objects.filter(place=place, quantity__gt=0, outside=False)
        rows = rows.filter(pk__in=there.values("part"))
    return rows


def likely_words(garage: Garage, what: str) -> str:
    """What of a want in words finds something: all of it, else its longest word that does."""
    longest = sorted(set(what.split()), key=lambda word: (-len(word), word))[:MOST_WORDS]
    tries = [what, *(word for word in longest if len(word) > 2)]
    return next((words for words in tries if found(garage, words).exists()), what)

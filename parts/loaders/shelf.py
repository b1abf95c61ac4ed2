"""What is where: parts with the places that hold them."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Prefetch, Q, QuerySet

from garage.engine.money import money_words
from garage.models import Garage
from parts.models import Balance, Move, Part, Place

SHOWN = 200
STORES = ("shelf", "bin", "van", "trailer")


@dataclass(frozen=True)
class Where:
    place: Place
    quantity: int
    words: str


@dataclass(frozen=True)
class PartRow:
    """A part with where it is; `low` when the stores hold less than its level."""

    part: Part
    where: tuple[Where, ...]
    low: bool
    cost: str

    @property
    def nowhere(self) -> bool:
        return not self.where


def amount_words(part: Part, quantity: int) -> str:
    """`3 pieces`, `1 piece`, `500 ml`."""
    if part.unit == Part.Unit.PIECE:
        return "1 piece" if quantity == 1 else f"{quantity} pieces"
    return f"{quantity} {part.unit}"


def rows_of(parts: Iterable[Part], garage: Garage) -> list[PartRow]:
    """Two queries besides that of the parts themselves."""
    held = Balance.objects.filter(outside=False).exclude(quantity=0).select_related("place")
    found = parts
    if isinstance(parts, QuerySet):
        found = parts.prefetch_related(Prefetch("balances", held.order_by("place__walk_order")))
    rows = []
    for part in found:
        where = tuple(
            Where(row.place, row.quantity, amount_words(part, row.quantity))
            for row in part.balances.all()
            if row.place.kind != Place.Kind.SCRAP
        )
        stored = sum(each.quantity for each in where if each.place.kind in STORES)
        rows.append(
            PartRow(
                part,
                where,
                part.low_level is not None and stored < part.low_level,
                money_words(part.cost_minor, garage.currency) if part.cost_minor else "",
            )
        )
    return rows


def found(garage: Garage, words: str, place: Place | None = None) -> QuerySet[Part]:
    """Parts that match every word, in name, number, code, where it came from or supplier."""
    rows = Part.objects.in_garage(garage).kept()
    for word in words.split()[:10]:
        rows = rows.filter(
            Q(name__icontains=word)
            | Q(number__icontains=word)
            | Q(code__iexact=word)
            | Q(provenance__icontains=word)
            | Q(supplier__icontains=word)
        )
    if place:
        rows = rows.filter(
            balances__place=place, balances__quantity__gt=0, balances__outside=False
        ).distinct()
    return rows


def history(part: Part) -> QuerySet[Move]:
    return (
        Move.objects.of(part)
        .select_related("source", "target", "by__person", "reversed_by")
        .order_by("-pk")
    )

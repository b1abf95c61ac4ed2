"""Parts looked for: by words, by what they must fit, by place."""

from collections.abc import Sequence

from django.db.models import F, OuterRef, Q, QuerySet, Subquery
from django.db.models.functions import Substr, Upper

from garage.models import Garage
from parts.engine.fit import FitVerdict, Interface, fits_all, read_all, wish
from parts.models import Balance, Part, Place

MOST_WORDS = 10


def judged(garage: Garage, wants: Sequence[Interface]) -> dict[int, FitVerdict]:
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


def matching(garage: Garage, text: str, place: Place | None = None, low: bool = False) -> QuerySet[Part]:
    """Parts that match every word, and those that fit the sizes among the words."""
    rows = Part.objects.in_garage(garage).kept().order_by("name", "pk")
    if low:
        rows = rows.low()
    matches, asked = _matches(text), wish(text)
    if asked.wants:
        fit = [pk for pk, verdict in judged(garage, asked.wants).items() if verdict.as_asked]
        matches |= Q(pk__in=fit) & _matches(asked.rest)
    rows = rows.filter(matches)
    if place:
        there = Balance.objects.held().filter(place=place)
        rows = rows.filter(pk__in=there.values("part"))
    return rows


def by_place(rows: QuerySet[Part]) -> QuerySet[Part]:
    """In the order of the way round, a part in several places by the first; those that lie nowhere last."""
    lies = Balance.objects.held().filter(part=OuterRef("pk")).order_by("place__walk_order", "place__name")
    there = {"walk": Subquery(lies.values("place__walk_order")[:1]), "spot": Subquery(lies.values("place__name")[:1])}
    return rows.annotate(**there).order_by(F("walk").asc(nulls_last=True), "spot", "name", "pk")


def under(rows: QuerySet[Part], letter: str) -> QuerySet[Part]:
    """Those whose name begins with the letter."""
    return rows.filter(name__istartswith=letter)


def letters(garage: Garage) -> list[str]:
    """What the names of parts begin with; one query."""
    first = Part.objects.in_garage(garage).kept().annotate(letter=Upper(Substr("name", 1, 1)))
    return sorted(first.order_by("letter").values_list("letter", flat=True).distinct())


def words_that_find(garage: Garage, what: str) -> str:
    """What of a want in words finds something: all of it, else its longest word that does."""
    longest = sorted(set(what.split()), key=lambda word: (-len(word), word))[:MOST_WORDS]
    tries = [what, *(word for word in longest if len(word) > 2)]
    return next((words for words in tries if matching(garage, words).exists()), what)

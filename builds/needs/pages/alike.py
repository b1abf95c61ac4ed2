"""What is wanted in words alone, and lies on the shelf by that name or of that size: nobody buys it twice."""

from django.db.models import Q

from builds.needs.facts.fits import answer_of
from builds.needs.facts.meant import called_so
from builds.needs.facts.shelf_names import shelf_names
from builds.work.models.need import Need
from garage.models import Garage
from parts.engine.fit import FITS
from parts.engine.ledger import STORES
from parts.engine.words import amount_words
from parts.models import Balance, Part


def alike_on_shelf(needs: list[Need], garage: Garage) -> dict[int, str]:
    """Of each such need (pk) what the shelf has, in words; three queries, one less where names are remembered."""
    if not needs:
        return {}
    names, kept = shelf_names(garage), Part.objects.in_garage(garage).kept()
    called = {need.pk: {part.pk for part in names.near(need.what) if called_so(need, part.name)} for need in needs}
    may_be = Q(pk__in=set[int]().union(*called.values()))
    parts = list(kept.filter(may_be | ~Q(interfaces=[]) if any(need.fit for need in needs) else may_be))
    alike = {need.pk: [part for part in parts if part.pk in called[need.pk] or _fits(need, part)] for need in needs}
    held = Balance.objects.by_part({part for listed in alike.values() for part in listed})
    said = {}
    for pk, listed in alike.items():
        there = [
            (part, sum(balance.quantity for balance in held[part.pk] if balance.place.kind in STORES))
            for part in listed
            if part.pk in held
        ]
        words = [f"{amount_words(part.unit, many)} of {part}" for part, many in there if many]
        if words:
            said[pk] = f"On the shelf: {', '.join(words)}. Is it this?"
    return said


def _fits(need: Need, part: Part) -> bool:
    answer = answer_of(need, part)
    return answer is not None and answer.state == FITS

"""What is wanted in words alone, and lies on the shelf by that name or of that size: nobody buys it twice."""

from collections import defaultdict
from collections.abc import Mapping

from django.db.models import Q

from builds.needs.facts.meant import may_be
from builds.recipes.engine.eats import words_of
from builds.work.models.need import Need
from garage.models import Garage
from parts.engine.ledger import STORES
from parts.engine.words import amount_words
from parts.models import Balance, Part
from parts.models.part import PartQuerySet


def alike_on_shelf(needs: list[Need], garage: Garage) -> dict[int, str]:
    """Of each such need (pk) what the shelf has, in words; two queries, or none without a need."""
    if not needs:
        return {}
    parts = list(_called_like(needs, Part.objects.in_garage(garage).kept()))
    by_word: dict[str, list[Part]] = defaultdict(list)
    for part in parts:
        for word in words_of(part.name):
            by_word[word].append(part)
    alike = {need.pk: [part for part in _near(need, parts, by_word) if may_be(need, part)] for need in needs}
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


def _near(need: Need, parts: list[Part], by_word: Mapping[str, list[Part]]) -> list[Part]:
    """Those that have its rarest word: no other is called so, nor a kind of it. Any may have its size."""
    if need.fit:
        return parts
    return min((by_word.get(word, []) for word in words_of(need.what)), key=len, default=parts)


def _called_like(needs: list[Need], parts: PartQuerySet) -> PartQuerySet:
    """Those that have the longest word of a want; all of them where a size may do, or a word the database folds not."""
    like = Q()
    for need in needs:
        longest = max(words_of(need.what), key=len, default="")
        if need.fit or not longest.isascii() or not longest:
            return parts
        like |= Q(name__icontains=longest)
    return parts.filter(like)

"""Parts that may be what a need asks for, as they are offered to be chosen."""

from dataclasses import dataclass

from builds.needs.facts.fits import is_safety
from builds.needs.pages.words import fit_words
from builds.work.models.need import Need
from garage.models import Garage
from parts.engine.fit import DOES_NOT
from parts.facts.search import matching, words_that_find
from parts.pages.rows import PartRow, rows_of

MOST_LOOKED_AT, MOST_SHOWN = 300, 30


@dataclass(frozen=True)
class OfferedParts:
    """What was looked for and found, what fits first; `refused` (pks) does not, and lives hang."""

    words: str
    asked: str
    rows: list[PartRow]
    refused: frozenset[int]


def offered(need: Need, garage: Garage, text: str | None) -> OfferedParts:
    """Parts that may be what is needed; `text` None looks by its own words and by what must fit."""
    asked = fit_words(need)
    likely = words_that_find(garage, need.what) if text is None else text
    parts = matching(garage, likely)
    if text is None and asked:
        parts = parts | matching(garage, asked)
    offers = rows_of(parts[:MOST_LOOKED_AT], garage, need.must_fit)
    offers.sort(key=lambda offer: offer.fit.rank if offer.fit else 0)
    refused = frozenset(
        offer.part.pk
        for offer in offers
        if offer.fit and offer.fit.state == DOES_NOT and is_safety(need.job, offer.part)
    )
    return OfferedParts(likely, asked, offers[:MOST_SHOWN], refused)

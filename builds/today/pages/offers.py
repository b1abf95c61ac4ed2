"""What somebody who read a shared page says he has of the parts that are sought."""

from dataclasses import dataclass

from django.urls import reverse

from builds.needs.models import PartOffer
from builds.needs.pages.needs import what_words
from garage.access import refuse_arranging
from garage.models import Membership


@dataclass(frozen=True)
class OfferToday:
    pk: int
    who: str
    what: str
    line: str
    url: str


def offers_today(me: Membership) -> tuple[OfferToday, ...]:
    """For the owner alone, what he has not put aside; one query."""
    if refuse_arranging(me):
        return ()
    rows = PartOffer.objects.visible_to(me).filter(seen_at=None).select_related("need__part", "need__job__vehicle")
    return tuple(
        OfferToday(
            offer.pk,
            offer.name,
            f"{what_words(offer.need)}, {offer.need.job.vehicle.name}",
            offer.line,
            f"{reverse('job_page', args=[offer.need.job_id])}#need-{offer.need_id}",
        )
        for offer in rows
    )

"""“I have one”: written down from a shared page, put aside by the owner."""

from datetime import datetime

from django.db import transaction

from builds.needs.models import PartOffer
from builds.work.models.need import Need
from garage import writes
from garage.actions import journal, tries
from garage.actions.refused import Refused
from garage.engine.tries import SHARE_SAID
from garage.engine.words import wait_words
from garage.models import Garage, Share

MOST = 40  # not yet put aside, of one link


def say(share: Share, need: Need, *, name: str, line: str, key: str, device: str = "unknown", at: datetime) -> None:
    """Once for each button. Raises Refused."""
    if PartOffer.objects.filter(share=share, key=key).exists():
        return
    wait = tries.claim((SHARE_SAID, share.digest), at=at)
    if wait:
        raise Refused(f"Too many at once: wait {wait_words(wait)}, then try again.")
    with transaction.atomic():
        Garage.objects.select_for_update(no_key=True).get(pk=share.garage_id)
        if not Need.objects.filter(pk=need.pk).exists():  # it may have been deleted meanwhile
            raise Refused("That is not sought any more.")
        if share.offers.filter(seen_at=None).count() >= MOST:
            raise Refused("Too many have answered already: ask the garage directly.")
        said = {"need": need, "name": name, "line": line, "said_at": at}
        PartOffer.objects.get_or_create(share=share, key=key, defaults=said)
        told = {"act": "share_have", "paths": (f"/jobs/{need.job_id}/",), "said": line, "device": device}
        journal.write(share.garage_id, by=name, at=at, **told)
        writes.count(share.garage_id, at=at)


def put_aside(offer: PartOffer, *, at: datetime) -> None:
    PartOffer.objects.filter(pk=offer.pk, seen_at=None).update(seen_at=at)

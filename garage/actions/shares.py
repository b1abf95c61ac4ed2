"""Share links: made, opened, revoked. The token itself is kept nowhere."""

import secrets
from collections.abc import Iterable
from datetime import datetime, timedelta

from django.contrib.auth.hashers import check_password, make_password
from django.db import transaction

from garage.actions import tries
from garage.actions.refused import Refused
from garage.actions.sign_in import HASHING, PATIENCE, digest
from garage.engine.tries import SHARE_GUESS, SHARE_PHRASE
from garage.engine.words import wait_words
from garage.logs import note
from garage.models import Event, Membership, Share, Vehicle

MOST_DAYS = 90


@transaction.atomic
def make(
    *,
    by: Membership,
    at: datetime,
    days: int,
    vehicle: Vehicle | None = None,
    event: Event | None = None,
    label: str = "",
    photos: Iterable[int] = (),
    parts: bool = False,
    phrase: str = "",
) -> tuple[Share, str]:
    """The link's row and its token, which is shown once; `photos` are keys. Raises Refused."""
    thing = vehicle or event
    if thing is None or (vehicle and event) or thing.garage_id != by.garage_id:
        raise Refused("Share one car or one event of this garage.")
    if not 1 <= days <= MOST_DAYS:
        raise Refused(f"A link lasts from 1 to {MOST_DAYS} days.")
    token = secrets.token_urlsafe(20)
    share = Share.objects.create(
        garage=by.garage,
        vehicle=vehicle,
        event=event,
        label=label,
        photos=sorted(photos),
        parts=parts,
        phrase=make_password(phrase) if phrase else "",
        digest=digest(token),
        tail=token[-4:],
        made_by=by,
        made_at=at,
        expires_at=at + timedelta(days=days),
    )
    return share, token


def revoke(share: Share, *, at: datetime) -> None:
    Share.objects.filter(pk=share.pk, revoked_at=None).update(revoked_at=at)


def open_by(token: str, *, address: str, at: datetime) -> Share | None:
    """The live share of a token; wrong guesses are counted, and too many end in silence."""
    if tries.waiting((SHARE_GUESS, address), at=at):
        return None
    share: Share | None = (
        Share.objects.live(at).filter(digest=digest(token)).select_related("garage", "vehicle", "event").first()
    )
    if share is None:
        tries.claim((SHARE_GUESS, address), at=at)
        if tries.waiting((SHARE_GUESS, address), at=at):
            note("share guessed too often", address=address)
    else:
        Share.objects.filter(pk=share.pk).update(opened_at=at)
    return share


def unlock(share: Share, phrase: str, *, at: datetime) -> str | None:
    """None where it is the pass-phrase, else why not; counted, then hashed."""
    counter = (SHARE_PHRASE, share.digest)
    wait = tries.claim(counter, at=at)
    if wait:
        return f"Too many tries: wait {wait_words(wait)}, then try again."
    if not HASHING.acquire(timeout=PATIENCE):
        tries.take_back(counter)
        return "Too many are trying at once: try again in a moment."
    try:
        right = check_password(phrase, share.phrase)
    finally:
        HASHING.release()
    if not right:
        return "That is not the pass-phrase."
    tries.forget(counter)
    return None

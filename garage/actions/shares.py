"""Share links: made, opened, revoked. The token itself is kept nowhere."""

from collections.abc import Iterable
from datetime import datetime, timedelta

from django.contrib.auth.hashers import check_password, make_password
from django.db import transaction

from garage.actions import tries
from garage.actions.link_tokens import SHARE_TOKENS
from garage.actions.refused import Refused
from garage.actions.sign_in import HASHING, PATIENCE
from garage.engine.tries import SHARE_PHRASE
from garage.engine.words import wait_words
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
    fleet: bool = False,
    label: str = "",
    photos: Iterable[int] = (),
    parts: bool = False,
    phrase: str = "",
    calendar: bool = False,
    may_comment: bool = False,
    may_tick: Iterable[int] = (),
) -> tuple[Share, str]:
    """The link's row and its token, which is shown once; `photos` and `may_tick` (jobs) are keys.

    The pass-phrase comes as `hashed` gives it, none is empty. Raises Refused.
    """
    thing = vehicle or event
    if sum(map(bool, (vehicle, event, fleet))) != 1 or (thing and thing.garage_id != by.garage_id):
        raise Refused("Share one car or one event of this garage, or all its cars.")
    if not 1 <= days <= MOST_DAYS:
        raise Refused(f"A link lasts from 1 to {MOST_DAYS} days.")
    token = SHARE_TOKENS.draw()
    share = Share.objects.create(
        garage=by.garage,
        vehicle=vehicle,
        event=event,
        label=label,
        photos=sorted(photos),
        parts=parts,
        phrase=phrase,
        calendar=calendar,
        may_comment=may_comment,
        may_tick=sorted(may_tick),
        made_by=by,
        made_at=at,
        expires_at=at + timedelta(days=days),
        **SHARE_TOKENS.kept(token),
    )
    return share, token


def hashed(phrase: str) -> str:
    """A pass-phrase as it is kept: slow, and so before any transaction."""
    if not phrase:
        return ""
    with HASHING:
        return make_password(phrase)


def revoke(share: Share, *, at: datetime) -> None:
    Share.objects.filter(pk=share.pk, revoked_at=None).update(revoked_at=at)


def open_by(token: str, *, address: str, at: datetime) -> Share | None:
    """The live share of a token; wrong guesses are counted, and too many end in silence."""
    live = Share.objects.live(at).select_related("garage", "vehicle", "event")
    share: Share | None = SHARE_TOKENS.opened(live, token, address=address, at=at)
    if share is not None:
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

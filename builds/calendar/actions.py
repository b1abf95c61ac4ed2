"""Calendars made, revoked and read; what one told is kept, so that what moves stays the same."""

import uuid
from collections.abc import Iterable
from datetime import datetime

from django.db import transaction

from builds.calendar.engine.items import Item, Told, told_anew
from builds.calendar.models import CalendarFeed, CalendarTold
from garage.access import refuse_own_calendar
from garage.actions.link_tokens import CALENDAR_TOKENS
from garage.actions.refused import Refused
from garage.models import Membership

MOST = 12


@transaction.atomic
def make(*, by: Membership, whole: bool, at: datetime) -> tuple[CalendarFeed, str]:
    """The row and its token, which is shown once. Raises Refused."""
    refusal = None if whole else refuse_own_calendar(by)
    if refusal:
        raise Refused(refusal)
    if CalendarFeed.objects.live().filter(member=by).count() >= MOST:
        raise Refused(f"You have {MOST} calendars: revoke one that nobody opens any more.")
    token = CALENDAR_TOKENS.draw()
    kept = CALENDAR_TOKENS.kept(token)
    feed = CalendarFeed.objects.create(member=by, whole=whole, made_at=at, changed_at=at, **kept)
    return feed, token


@transaction.atomic
def revoke(feed: CalendarFeed, *, at: datetime) -> None:
    """Dead from now on; what it told is forgotten."""
    CalendarFeed.objects.filter(pk=feed.pk, revoked_at=None).update(revoked_at=at)
    CalendarTold.objects.filter(feed=feed).delete()


def open_by(token: str, *, address: str, at: datetime) -> CalendarFeed | None:
    """The live calendar of a token; wrong guesses are counted, and too many end in silence."""
    rows = CalendarFeed.objects.live().select_related("member__garage", "member__person")
    feed: CalendarFeed | None = CALENDAR_TOKENS.opened(rows, token, address=address, at=at)
    return feed


@transaction.atomic
def tell(feed: CalendarFeed, items: Iterable[Item], *, at: datetime) -> list[Told]:
    """The items in their revisions, kept as they are told now. Two who ask at once come one after the other.

    Raises Refused where it was revoked meanwhile.
    """
    held = CalendarFeed.objects.select_for_update().filter(pk=feed.pk, revoked_at=None).first()
    if held is None:
        raise Refused("This calendar was revoked.")
    before = [_read(item) for item in held.told.all()]
    now = told_anew(items, before, at, uuid.uuid4)
    if now != before:
        held.told.all().delete()
        CalendarTold.objects.bulk_create(_row(held, told) for told in now)
        held.changed_at = at
    held.opened_at = at
    held.save(update_fields=["changed_at", "opened_at"])
    feed.changed_at = held.changed_at
    return now


def _read(row: CalendarTold) -> Told:
    return Told(
        row.key, row.uid, row.starts, row.ends, row.day, tuple(row.jobs), row.digest, row.sequence, row.changed_at
    )


def _row(feed: CalendarFeed, told: Told) -> CalendarTold:
    return CalendarTold(
        feed=feed,
        key=told.key,
        uid=told.uid,
        starts=told.starts,
        ends=told.ends,
        day=told.day,
        jobs=list(told.jobs),
        digest=told.digest,
        sequence=told.sequence,
        changed_at=told.changed_at,
    )

"""News asked for and stopped; a mail claimed, so that of two workers one sends it."""

from datetime import datetime
from typing import Any

from django.db import transaction

from builds.news.models import NewsWish
from garage.actions.refused import Refused
from garage.models import Membership

KINDS = ("evenings", "points", "parts", "cars")


@transaction.atomic
def wish(member: Membership, *, kinds: dict[str, bool]) -> None:
    """With no kind at all there is no wish. Raises Refused where he cannot be written to."""
    if not any(kinds.values()):
        stop(member)
        return
    if not member.person.email:
        raise Refused("Write down your e-mail first, on the page of your account.")
    NewsWish.objects.update_or_create(member=member, defaults=kinds)


def stop(member: Membership) -> None:
    NewsWish.objects.filter(member=member).delete()


def note(wish: NewsWish, told: dict[str, Any]) -> None:
    """How things stand, where there is nothing to be told of it."""
    NewsWish.objects.filter(pk=wish.pk).update(told=told)


def claim(wish: NewsWish, *, at: datetime) -> bool:
    """False where somebody else is sending it, or it was stopped."""
    return bool(NewsWish.objects.filter(pk=wish.pk, sent_at=wish.sent_at).update(sent_at=at))


def give_back(wish: NewsWish) -> None:
    """It could not be sent: the next look tries again."""
    NewsWish.objects.filter(pk=wish.pk).update(sent_at=wish.sent_at)

"""Every link that leads into the garage from outside: what it shows, until when, when it was last opened."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.calendar.models import CalendarFeed
from garage.access import refuse_identity
from garage.models import Membership, Share, SignInLink, VisitLink


@dataclass(frozen=True)
class LinkLine:
    """`until` is None for one that lives until it is revoked, `opened` None for one that nobody opened yet.

    `made` says by whom, or how it came about; `once` is of a link that ends as it is used, `refusal` why the reader
    may not revoke it.
    """

    what: str
    tail: str
    made: str
    until: datetime | None
    opened: datetime | None
    revoke_url: str
    once: bool = False
    refusal: str = ""


def links_of(me: Membership, at: datetime) -> list[LinkLine]:
    """All that hold now, those opened last first; as many queries for fifty as for one."""
    lines = [*_shares(me, at), *_visits(me, at), *_calendars(me), *_sign_ins(me, at)]
    return sorted(lines, key=lambda line: line.opened.timestamp() if line.opened else 0, reverse=True)


def _shares(me: Membership, at: datetime) -> Iterator[LinkLine]:
    for share in Share.objects.visible_to(me).live(at).select_related("vehicle", "event", "made_by__person"):
        yield LinkLine(
            f"Status of {share.thing or 'all cars'}{f', for {share.label}' if share.label else ''}",
            f"…{share.tail}",
            f"made by {share.made_by.name}",
            share.expires_at,
            share.opened_at,
            reverse("share_revoke", args=[share.pk]),
        )


def _visits(me: Membership, at: datetime) -> Iterator[LinkLine]:
    links = VisitLink.objects.visible_to(me).live(at).select_related("member__person", "made_by__person", "parent")
    for link in links:
        yield LinkLine(
            f"When {link.who} can come" if link.who else "When whoever has it can come",
            f"…{link.tail}",
            _how(link),
            link.expires_at,
            link.opened_at,
            reverse("visit_link_revoke", args=[link.pk]),
        )


def _how(link: VisitLink) -> str:
    """Of somebody who answered a link for anybody nothing is known but the name that he wrote."""
    if link.parent is None:
        return f"made by {link.made_by.name}"
    answered = f"came from the link …{link.parent.tail}: whoever answered wrote the name “{link.name}”"
    return f"{answered}, and the owner said that it is {link.member.name}" if link.member else answered


def _calendars(me: Membership) -> Iterator[LinkLine]:
    for feed in CalendarFeed.objects.visible_to(me).live().select_related("member__person"):
        yield LinkLine(
            "Calendar of the whole garage" if feed.whole else f"Calendar of {feed.member}",
            f"…{feed.tail}",
            f"made by {feed.member.name}",
            None,
            feed.opened_at,
            reverse("calendar_revoke", args=[feed.pk]),
        )


def _sign_ins(me: Membership, at: datetime) -> Iterator[LinkLine]:
    here = Membership.objects.visible_to(me).active()
    people = {member.person_id: member for member in here.select_related("person")}
    others = Membership.objects.active().elsewhere(me.garage).filter(person__in=people)
    elsewhere = set(others.values_list("person_id", flat=True))
    for link in SignInLink.objects.usable(at).filter(person__in=people):
        member = people[link.person_id]
        url = reverse("person_link_revoke", args=[member.pk])
        refusal = refuse_identity(member, link.person_id in elsewhere) or ""
        yield LinkLine(f"Signs in {member.name}", "", "", link.expires_at, None, url, once=True, refusal=refusal)

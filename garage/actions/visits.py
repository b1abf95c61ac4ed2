"""Visits: links made and revoked, evenings said by whoever holds one, taken or refused by the owner."""

from collections.abc import Iterable
from datetime import date, datetime, timedelta

from django.db import transaction
from django.utils.crypto import salted_hmac

from garage import writes
from garage.actions import hours, journal, people, tries
from garage.actions.link_tokens import VISIT_TOKENS
from garage.actions.refused import Refused
from garage.engine.hours import Stretch
from garage.engine.tries import VISIT_SAID
from garage.models import Garage, Membership, Skill, Visit, VisitLink

MOST_DAYS = 90
MOST_GUESTS = 30  # of one link, so that a chat with it fills no garage
State = Visit.State


@transaction.atomic
def make(*, by: Membership, of: Membership | None, days: int, at: datetime) -> tuple[VisitLink, str]:
    """The row and its token, which is shown once. Raises Refused."""
    if not 1 <= days <= MOST_DAYS:
        raise Refused(f"A link lasts from 1 to {MOST_DAYS} days.")
    if of and of.garage_id != by.garage_id:
        raise Refused("Make it for somebody of this garage, or for whoever has it.")
    token = VISIT_TOKENS.draw()
    link = VisitLink.objects.create(
        garage=by.garage,
        member=of,
        made_by=by,
        made_at=at,
        expires_at=at + timedelta(days=days),
        **VISIT_TOKENS.kept(token),
    )
    return link, token


def revoke(link: VisitLink, *, at: datetime) -> None:
    """Dead from now on, and what came from it; evenings that count stay."""
    VisitLink.objects.filter(pk=link.pk, revoked_at=None).update(revoked_at=at)


def open_by(token: str, *, address: str, at: datetime) -> VisitLink | None:
    """The live link of a token; wrong guesses are counted, and too many end in silence."""
    rows = VisitLink.objects.live(at).select_related("garage", "member__person", "parent")
    link: VisitLink | None = VISIT_TOKENS.opened(rows.prefetch_related("member__skills"), token, address=address, at=at)
    if link is not None:
        VisitLink.objects.filter(pk=link.pk).update(opened_at=at)
    return link


def may_say(link: VisitLink, *, at: datetime) -> int:
    """Seconds to wait until more may be said by this link, 0 when it may be now: then it is counted."""
    return tries.claim((VISIT_SAID, link.digest), at=at)


@transaction.atomic
def say(
    link: VisitLink, *, days: Iterable[date], since: int, until: int, at: datetime, name: str = "", key: str = ""
) -> str | None:
    """He can come on these days, from `since` until `until` (minutes of the wall). Raises Refused.

    By a link that asks who, the token of his own link: drawn from the `key` of the button, so that a second tap
    finds the first answer.
    """
    link = _in_line(link, at)
    token = None
    if link.asks_who:
        token = salted_hmac("visit guest", f"{link.digest} {key}").hexdigest()[:27]
        link = _guest(link, token, name, at)
    for day in days:
        if link.member:
            _come(link.member, day, since, until)
        Visit.objects.update_or_create(
            link=link,
            day=day,
            defaults={
                "from_minute": since,
                "until_minute": until,
                "state": State.TAKEN if link.member else State.WAITING,
                "said_at": at,
            },
        )
    journal.write(link.garage_id, by=link.member or link.name, act="visit_page", paths=(), at=at)
    writes.count(link.garage_id, at=at)
    return token


def _guest(link: VisitLink, token: str, name: str, at: datetime) -> VisitLink:
    known = VisitLink.objects.filter(digest=VISIT_TOKENS.digest(token)).first()
    if known:
        return _in_line(known, at)
    if link.guests.count() >= MOST_GUESTS:
        raise Refused("Too many have answered by this link already: ask for a new one.")
    return VisitLink.objects.create(
        garage=link.garage,
        parent=link,
        name=name,
        made_by=link.made_by,
        made_at=at,
        expires_at=link.expires_at,
        **VISIT_TOKENS.kept(token),
    )


def _come(member: Membership, day: date, since: int, until: int) -> None:
    hours.set_day(member, day=day, kind="instead", stretches=[Stretch(day.weekday(), since, until)])


@transaction.atomic
def withdraw(visit: Visit, *, at: datetime) -> None:
    """He cannot come after all."""
    _stand_in_line(visit.link.garage)
    visit = Visit.objects.select_related("link__member__person").get(pk=visit.pk)  # it may have been taken meanwhile
    if visit.state == State.TAKEN and visit.link.member:
        hours.set_day(visit.link.member, day=visit.day, kind="off", stretches=[])
    Visit.objects.filter(pk=visit.pk).update(state=State.WITHDRAWN, said_at=at)
    said = {"act": "visit_page", "said": "Cannot come after all.", "paths": ()}
    journal.write(visit.link.garage_id, by=visit.link.member or visit.link.name, at=at, **said)
    writes.count(visit.link.garage_id, at=at)


@transaction.atomic
def take(link: VisitLink, *, member: Membership | None, today: date, skills: Iterable[Skill] = ()) -> Membership:
    """The owner's yes: his evenings ahead count. Without a `member` he becomes a person of hours and `skills` alone.

    He never signs, has no e-mail and no password, and gets in only by a link that the owner makes. Raises Refused.
    """
    if link.asks_who:
        raise Refused("Everybody who answered by this link has a link of his own: say yes to that one.")
    if link.member_id:
        raise Refused(f"{link.who} belongs to this garage already.")
    if member and member.garage_id != link.garage_id:
        raise Refused("Choose somebody of this garage.")
    if member is None:
        others = Membership.objects.in_garage(link.garage_id).active().filter(person__name__iexact=link.name)
        if others.exists():
            raise Refused(f"Somebody here is called {link.name} already: choose whether it is the same person.")
        member = people.add(
            link.garage,
            role=Membership.Role.HELPER,
            skills=skills,
            works=True,
            name=link.name,
            surname="",
            email=None,
        )
    VisitLink.objects.filter(pk=link.pk).update(member=member)
    for visit in link.visits.filter(state=State.WAITING, day__gte=today):
        _come(member, visit.day, visit.from_minute, visit.until_minute)
    link.visits.filter(state=State.WAITING).update(state=State.TAKEN)
    return member


@transaction.atomic
def refuse(link: VisitLink) -> None:
    """Not this time: what waits is answered, and he reads so on his page."""
    link.visits.filter(state=State.WAITING).update(state=State.REFUSED)


def _stand_in_line(garage: Garage) -> None:
    """As every write of a garage: one after the other."""
    Garage.objects.select_for_update(no_key=True).get(pk=garage.pk)


def _in_line(link: VisitLink, at: datetime) -> VisitLink:
    """The link as it stands once its garage waits for us: it may have been taken or revoked meanwhile."""
    _stand_in_line(link.garage)
    rows = VisitLink.objects.live(at).select_related("garage", "member__person")
    held: VisitLink | None = rows.filter(pk=link.pk).first()
    if held is None:
        raise Refused("This link was revoked: ask for a new one.")
    return held

"""Signing in: the password counted before it is hashed, and one-time links."""

import hashlib
import secrets
import threading
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth import authenticate
from django.db import transaction

from garage.actions import tries
from garage.engine.tries import SIGN_IN_ADDRESS, SIGN_IN_NAME, SIGN_IN_PAIR
from garage.models import Device, Membership, Person, Receipt, SignInLink

OWN_LINK = timedelta(minutes=30)
LINK_FOR_ANOTHER = timedelta(hours=24)
# Hashing takes a third of a second of one core: one at a time, so that pages still answer.
HASHING = threading.Lock()
PATIENCE = 0.5
UNNAMED = "Owner"  # what somebody is called until he says his name


@dataclass(frozen=True)
class SignInOutcome:
    """`person` when it was right; `wait` in seconds when it was not even looked at."""

    person: Person | None = None
    wait: int = 0


def by_password(*, email: str, password: str, address: str, at: datetime) -> SignInOutcome:
    name = email.strip().lower()
    pair = (SIGN_IN_PAIR, f"{name}\n{address}")
    counters = [pair, (SIGN_IN_ADDRESS, address)]
    if not tries.lately_right(pair, at=at):
        counters.append((SIGN_IN_NAME, name))
    wait = tries.claim(*counters, at=at)
    if wait:
        return SignInOutcome(wait=wait)
    if not HASHING.acquire(timeout=PATIENCE):
        tries.take_back(*counters)
        return SignInOutcome(wait=1)
    try:
        person = authenticate(None, username=name, password=password)
    finally:
        HASHING.release()
    if isinstance(person, Person):
        tries.forget(pair, (SIGN_IN_NAME, name))
        tries.take_back((SIGN_IN_ADDRESS, address))
        tries.note_right(pair, at=at)
        return SignInOutcome(person=person)
    return SignInOutcome()


def digest(token: str) -> str:
    """A plain hash does: the token is 160 random bits."""
    return hashlib.sha256(token.encode()).hexdigest()


@transaction.atomic
def make_link(person: Person, *, lasts: timedelta, at: datetime) -> str:
    """The token, which is kept nowhere; unused links of this person end with the new one."""
    SignInLink.objects.of(person).unused().delete()
    token = secrets.token_urlsafe(20)
    SignInLink.objects.create(person=person, digest=digest(token), expires_at=at + lasts)
    return token


def revoke_link(person: Person) -> None:
    """His unused link is dead; where he is signed in he stays so."""
    SignInLink.objects.of(person).unused().delete()


def link_of(token: str, *, at: datetime) -> SignInLink | None:
    return SignInLink.objects.usable(at).select_related("person").filter(digest=digest(token)).first()


def used_by(token: str, person: Person) -> bool:
    """Whether it was his link, and let him in: he opens it again."""
    return SignInLink.objects.of(person).filter(digest=digest(token)).exclude(used_at=None).exists()


@transaction.atomic
def by_link(token: str, *, at: datetime) -> Person | None:
    """The person whose link it is, once: of two taps at the same moment one finds it used."""
    link = link_of(token, at=at)
    if link is None or not SignInLink.objects.unused().filter(pk=link.pk).update(used_at=at):
        return None
    return link.person


@transaction.atomic
def end_sessions(person: Person, *, at: datetime) -> None:
    """Every session that began before `at`, with its device, and every link not yet used."""
    SignInLink.objects.of(person).unused().delete()
    Device.objects.of(person).delete()
    person.sessions_from = at
    person.save(update_fields=["sessions_from"])


@transaction.atomic
def first_person() -> Person | None:
    """Somebody to begin with where there is nobody at all; he founds his garage when he is in."""
    if Person.objects.exists():
        return None
    return Person.objects.create_user(name=UNNAMED)


def keeper() -> Person | None:
    """Whom a link is for when nobody is named: the first owner, else whoever is there."""
    owners = Membership.objects.active().owners().select_related("person")
    first = owners.order_by("pk").first()
    return first.person if first else Person.objects.active().order_by("pk").first()


def forget_receipts(*, at: datetime) -> None:
    """Of buttons that are too old to be pressed again; signing in is rare enough to do it then."""
    Receipt.objects.stale(at).delete()

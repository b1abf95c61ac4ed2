"""Devices: noted where somebody signs in, ended each by itself."""

from datetime import datetime

from django.contrib.sessions.models import Session
from django.db import transaction

from garage.engine.devices import device_kind, device_words
from garage.models import Device, Person


@transaction.atomic
def note(person: Person, *, session_key: str, agent: str, known: int | None, at: datetime) -> int:
    """The pk of the device of a session; `known` is the one that it was before its key was drawn anew.

    Many requests of one session at the same moment note one device.
    """
    told = {"kind": device_kind(agent), "words": device_words(agent)[:60], "seen_at": at}
    if known and Device.objects.of(person).filter(pk=known).update(session_key=session_key, **told):
        return known
    anew = {"person": person, "signed_in_at": at, **told}
    device, _ = Device.objects.update_or_create(session_key=session_key, defaults=anew)
    return device.pk


def seen(known: int, *, at: datetime) -> None:
    Device.objects.filter(pk=known).update(seen_at=at)


@transaction.atomic
def end(device: Device) -> None:
    """Signed out there from the next page on."""
    Session.objects.filter(session_key=device.session_key).delete()
    device.delete()

"""A device on which somebody is signed in: one session, so that each can be ended by itself."""

from datetime import datetime, timedelta
from typing import Self

from django.conf import settings
from django.contrib.sessions.models import Session
from django.db import models

from garage.engine.devices import KINDS
from garage.models.bounds import one_of, text_within
from garage.models.membership import Membership
from garage.models.person import Person


class DeviceQuerySet(models.QuerySet["Device"]):
    def of(self, person: Person) -> Self:
        return self.filter(person=person)

    def visible_to(self, member: Membership) -> Self:
        """Of the people of a garage; whether they may be ended is another question."""
        here = Membership.objects.in_garage(member.garage_id).active()
        return self.filter(person__in=here.values("person")).select_related("person")

    def live(self, at: datetime) -> Self:
        """Those whose session is there and not over; the one used last stands first."""
        used = at - timedelta(seconds=settings.SESSION_COOKIE_AGE)
        there = Session.objects.values("session_key")
        return self.filter(seen_at__gt=used, session_key__in=there).order_by("-seen_at", "-pk")


class Device(models.Model):
    """`session_key` is kept as it is: whoever reads this table reads that of the sessions too."""

    person = models.ForeignKey(Person, models.CASCADE, related_name="devices")
    session_key = models.CharField(max_length=40, unique=True)
    kind = models.CharField(max_length=10, default="unknown")
    words = models.CharField(max_length=60, blank=True)
    signed_in_at = models.DateTimeField()
    seen_at = models.DateTimeField()

    objects = DeviceQuerySet.as_manager()

    class Meta:
        constraints = [
            one_of("device", "kind", KINDS),
            text_within("device", "words", 60),
            text_within("device", "session_key", 40, least=1),
        ]

    def __str__(self) -> str:
        kind = "device" if self.kind == "unknown" else self.kind
        return f"{kind}, {self.words}" if self.words else kind

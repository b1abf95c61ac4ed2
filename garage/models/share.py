"""A share link: the status of a car, an event or the fleet, read by a token; only its digest is kept."""

from datetime import datetime
from typing import Self

from django.db import models

from garage.models.bounds import text_within
from garage.models.event import Event
from garage.models.garage import Garage
from garage.models.membership import Membership
from garage.models.scoped import ScopedQuerySet
from garage.models.vehicle import Vehicle


class ShareQuerySet(ScopedQuerySet):
    owner_only = True

    def live(self, now: datetime) -> Self:
        return self.filter(revoked_at=None, expires_at__gt=now)


class Share(models.Model):
    """Of neither a car nor an event: of the whole fleet."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="shares")
    vehicle = models.ForeignKey(Vehicle, models.CASCADE, null=True, blank=True)
    event = models.ForeignKey(Event, models.CASCADE, null=True, blank=True)
    label = models.CharField(max_length=60, blank=True)
    digest = models.CharField(max_length=64, unique=True)
    tail = models.CharField(max_length=4)
    # What else is shown or may be done, and what is asked before anything is: keys of photos and jobs, a hash.
    photos = models.JSONField(default=list, blank=True)
    parts = models.BooleanField("parts that are sought", default=False)
    phrase = models.CharField(max_length=128, blank=True)
    calendar = models.BooleanField("the days ahead", default=False)
    may_comment = models.BooleanField("may comment", default=False)
    may_tick = models.JSONField("jobs that may be ticked", default=list, blank=True)
    made_by = models.ForeignKey(Membership, models.PROTECT)
    made_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    opened_at = models.DateTimeField(null=True, blank=True)
    revoked_at = models.DateTimeField(null=True, blank=True)

    objects = ShareQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at"]
        constraints = [
            text_within("share", "label", 60),
            text_within("share", "digest", 64, least=64),
            text_within("share", "phrase", 128),
            models.CheckConstraint(
                condition=models.Q(vehicle__isnull=True) | models.Q(event__isnull=True), name="share_of_one_thing"
            ),
        ]

    @property
    def thing(self) -> Vehicle | Event | None:
        return self.vehicle or self.event

    @property
    def name(self) -> str:
        """As its page is called."""
        return str(self.thing or "All cars")

    @property
    def several(self) -> bool:
        """Whether it may be of more cars than one."""
        return self.vehicle_id is None

    def __str__(self) -> str:
        return f"…{self.tail}"

"""Visits: a link by which somebody without an account says when he can come, and what was said."""

from datetime import date, datetime
from typing import Self

from django.db import models
from django.db.models import Q

from garage.models.bounds import number_within, one_of, text_within
from garage.models.garage import Garage
from garage.models.membership import Membership
from garage.models.scoped import ScopedQuerySet


class VisitLinkQuerySet(ScopedQuerySet):
    owner_only = True

    def live(self, now: datetime) -> Self:
        """Neither it nor the link that it came from is revoked or over, nor is whom it is of gone."""
        return self.filter(
            Q(parent=None) | Q(parent__revoked_at=None, parent__expires_at__gt=now),
            Q(member=None) | Q(member__left_at=None, member__person__is_active=True),
            revoked_at=None,
            expires_at__gt=now,
        )


class VisitLink(models.Model):
    """Of a `member`: what he says counts at once. Of nobody: whoever opens it says who he is, and gets a link of his
    own (`parent` is the one it came from, `name` what he calls himself) that waits for the owner's yes.
    """

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="visit_links")
    member = models.ForeignKey(Membership, models.CASCADE, null=True, blank=True, related_name="visit_links")
    parent = models.ForeignKey("self", models.CASCADE, null=True, blank=True, related_name="guests")
    name = models.CharField(max_length=60, blank=True)
    digest = models.CharField(max_length=64, unique=True)
    tail = models.CharField(max_length=4)
    made_by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    made_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    opened_at = models.DateTimeField(null=True, blank=True)
    revoked_at = models.DateTimeField(null=True, blank=True)

    objects = VisitLinkQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "-pk"]
        constraints = [
            text_within("visitlink", "name", 60),
            text_within("visitlink", "digest", 64, least=64),
            text_within("visitlink", "tail", 4, least=4),
            models.CheckConstraint(
                condition=Q(parent=None, name="") | ~Q(parent=None) & ~Q(name=""), name="visitlink_guest_has_a_name"
            ),
        ]

    def __str__(self) -> str:
        return self.who or f"…{self.tail}"

    @property
    def who(self) -> str:
        """Whose it is; empty while whoever opens it is still to say."""
        return self.member.name if self.member else self.name

    @property
    def asks_who(self) -> bool:
        return self.member_id is None and self.parent_id is None


class VisitQuerySet(ScopedQuerySet):
    garage_path = "link__garage"
    owner_only = True

    def ahead(self, today: date) -> Self:
        return self.filter(day__gte=today).order_by("day", "from_minute", "pk")


class Visit(models.Model):
    """An evening on which somebody said he can come, in minutes of wall clock; `waiting` for the owner's yes."""

    class State(models.TextChoices):
        WAITING = "waiting", "waits for a yes"
        TAKEN = "taken", "counts"
        REFUSED = "refused", "not this time"
        WITHDRAWN = "withdrawn", "cannot come after all"

    link = models.ForeignKey(VisitLink, models.CASCADE, related_name="visits")
    day = models.DateField()
    from_minute = models.PositiveSmallIntegerField()
    until_minute = models.PositiveSmallIntegerField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.WAITING)
    said_at = models.DateTimeField()

    objects = VisitQuerySet.as_manager()

    class Meta:
        ordering = ["day", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["link", "day"], name="visit_once_a_day"),
            one_of("visit", "state", ["waiting", "taken", "refused", "withdrawn"]),
            number_within("visit", "until_minute", 1, 1440),
            models.CheckConstraint(
                condition=Q(from_minute__lt=models.F("until_minute")), name="visit_from_minute_before_until_minute"
            ),
        ]

    @property
    def waits(self) -> bool:
        """For the yes of the owner, by a link that nobody revoked; reads the link and its parent."""
        parent = self.link.parent
        holds = self.link.revoked_at is None and (parent is None or parent.revoked_at is None)
        return holds and self.state == self.State.WAITING

    @property
    def settled(self) -> bool:
        """It counts, or he took it back himself."""
        return self.state in (self.State.TAKEN, self.State.WITHDRAWN)

"""A calendar that phones subscribe to, read by a token; only its digest is kept. And what it told last."""

from typing import Self

from django.db import models

from garage.models import Membership
from garage.models.bounds import number_within, text_within
from garage.models.scoped import ScopedQuerySet


class CalendarFeedQuerySet(ScopedQuerySet):
    garage_path = "member__garage"

    def live(self) -> Self:
        """Not revoked, of somebody who is still here."""
        return self.filter(revoked_at=None, member__left_at=None, member__person__is_active=True)

    def visible_to(self, member: Membership) -> Self:
        """One's own; the owner's are all of the garage."""
        rows = super().visible_to(member)
        return rows if member.role == Membership.Role.OWNER else rows.filter(member=member)

    def editable_by(self, member: Membership) -> Self:
        """Whoever made it revokes it, a viewer too."""
        return self.visible_to(member)


class CalendarFeed(models.Model):
    """It shows what `member` may see at the moment it is read: of the `whole` garage, or his own evenings."""

    member = models.ForeignKey(Membership, models.CASCADE, related_name="calendars")
    whole = models.BooleanField("of the whole garage")
    digest = models.CharField(max_length=64, unique=True)
    tail = models.CharField(max_length=4)
    made_at = models.DateTimeField()
    changed_at = models.DateTimeField()
    opened_at = models.DateTimeField(null=True, blank=True)
    revoked_at = models.DateTimeField(null=True, blank=True)

    objects = CalendarFeedQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "-pk"]
        constraints = [
            text_within("calendarfeed", "digest", 64, least=64),
            text_within("calendarfeed", "tail", 4, least=4),
        ]

    def __str__(self) -> str:
        return f"…{self.tail}"


class CalendarTold(models.Model):
    """One item as a calendar told it last: by which uid and in which revision, so that what moves stays the same."""

    feed = models.ForeignKey(CalendarFeed, models.CASCADE, related_name="told")
    key = models.CharField(max_length=60)
    uid = models.UUIDField()
    starts = models.DateTimeField()
    ends = models.DateTimeField()
    day = models.DateField(null=True, blank=True)
    jobs = models.JSONField(default=list, blank=True)
    digest = models.CharField(max_length=64)
    sequence = models.PositiveIntegerField(default=0)
    changed_at = models.DateTimeField()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["feed", "key"], name="calendartold_once"),
            text_within("calendartold", "key", 60, least=1),
            text_within("calendartold", "digest", 64, least=64),
            number_within("calendartold", "sequence", 0, 2**31 - 1),
        ]

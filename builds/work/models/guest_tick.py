"""“Done”, said of a job by a guest of a shared page; it counts once somebody of the garage says yes."""

from typing import Self

from django.db import models

from builds.work.models.job import Job
from garage.models import Membership, Share
from garage.models.bounds import one_of, text_within
from garage.models.scoped import ScopedQuerySet


class GuestTickQuerySet(ScopedQuerySet):
    garage_path = "job__vehicle__garage"

    def waiting(self) -> Self:
        return self.filter(state=GuestTick.State.WAITING)


class GuestTick(models.Model):
    class State(models.TextChoices):
        WAITING = "waiting", "waits for a yes"
        TAKEN = "taken", "taken"
        REFUSED = "refused", "not so"

    share = models.ForeignKey(Share, models.CASCADE, related_name="guest_ticks")
    job = models.ForeignKey(Job, models.CASCADE, related_name="guest_ticks")
    name = models.CharField(max_length=60)
    line = models.CharField(max_length=200, blank=True)
    key = models.CharField(max_length=40)
    said_at = models.DateTimeField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.WAITING)
    answered_by = models.ForeignKey(Membership, models.PROTECT, null=True, related_name="+")
    answered_at = models.DateTimeField(null=True)

    objects = GuestTickQuerySet.as_manager()

    class Meta:
        ordering = ["said_at", "pk"]
        constraints = [
            text_within("guesttick", "name", 60, least=1),
            text_within("guesttick", "line", 200),
            text_within("guesttick", "key", 40, least=1),
            one_of("guesttick", "state", ["waiting", "taken", "refused"]),
            models.UniqueConstraint(fields=["share", "key"], name="guesttick_once"),
            models.UniqueConstraint(fields=["job"], condition=models.Q(state="waiting"), name="guesttick_waits_once"),
            models.CheckConstraint(
                condition=models.Q(state="waiting", answered_by__isnull=True, answered_at__isnull=True)
                | (~models.Q(state="waiting") & models.Q(answered_by__isnull=False, answered_at__isnull=False)),
                name="guesttick_answered",
            ),
        ]

    def __str__(self) -> str:
        return self.name

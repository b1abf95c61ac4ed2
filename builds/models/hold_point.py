"""A hold point: work stops here until a second pair of eyes has signed."""

from typing import Self

from django.db import models
from django.db.models import Q

from builds.models.job import Job
from builds.models.states import FINISHED_STATES, OPEN_STATES, STARTED_STATES
from garage.models import Membership
from garage.models.bounds import text_within
from garage.models.scoped import ScopedQuerySet


class HoldPointQuerySet(ScopedQuerySet):
    garage_path = "job__vehicle__garage"

    def unsigned(self) -> Self:
        return self.filter(signed_at=None).exclude(job__state="dropped")

    def of_open(self) -> Self:
        return self.filter(job__state__in=OPEN_STATES)

    def reached(self) -> Self:
        """Unsigned on work that was begun: these make a car do-not-drive."""
        return self.unsigned().filter(job__state__in=[*STARTED_STATES, *FINISHED_STATES])


class HoldPoint(models.Model):
    job = models.ForeignKey(Job, models.CASCADE, related_name="hold_points")
    what = models.CharField("what is looked at", max_length=160)
    signed_by = models.ForeignKey(
        Membership, models.PROTECT, null=True, blank=True, related_name="+"
    )
    signed_at = models.DateTimeField(null=True, blank=True)
    seen = models.CharField("what was seen", max_length=200, blank=True)
    alone = models.BooleanField(default=False)

    objects = HoldPointQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            text_within("holdpoint", "what", 160, least=1),
            text_within("holdpoint", "seen", 200),
            models.CheckConstraint(
                condition=Q(signed_at=None, signed_by=None)
                | Q(signed_at__isnull=False, signed_by__isnull=False),
                name="holdpoint_signed_by_someone",
            ),
        ]

    def __str__(self) -> str:
        return self.what

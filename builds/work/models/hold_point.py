"""A hold point: work stops here until a second pair of eyes has signed."""

from fractions import Fraction
from typing import Self

from django.db import models
from django.db.models import Q

from builds.work.models.job import NAME_MOST, Job
from builds.work.models.states import FINISHED_STATES, OPEN_STATES, STARTED_STATES
from garage.engine.units import number_words
from garage.models import Membership
from garage.models.bounds import number_within, text_within
from garage.models.scoped import ScopedQuerySet

MOST_MILLI = 10**12
WAITS_FOR_EYES = "Waits for a second pair of eyes"


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
    """`signed_by` looked, or names the `outsider` who did; `written_by` wrote it down, if known."""

    job = models.ForeignKey(Job, models.CASCADE, related_name="hold_points")
    what = models.CharField("what is looked at", max_length=160)
    asks = models.CharField("value or name asked for", max_length=60, blank=True)
    unit = models.CharField(max_length=12, blank=True)
    low_milli = models.BigIntegerField("no less, thousandths", null=True, blank=True)
    high_milli = models.BigIntegerField("no more, thousandths", null=True, blank=True)
    value = models.CharField(max_length=80, blank=True)
    signed_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    signed_at = models.DateTimeField(null=True, blank=True)
    seen = models.CharField("what was seen", max_length=200, blank=True)
    alone = models.BooleanField(default=False)
    outsider = models.CharField("who looked from outside", max_length=NAME_MOST, blank=True)
    written_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")

    objects = HoldPointQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        indexes = [
            models.Index(fields=["job"], condition=Q(signed_at=None), name="holdpoint_unsigned"),
            models.Index(fields=["job"], condition=Q(alone=True), name="holdpoint_alone"),
        ]
        constraints = [
            text_within("holdpoint", "what", 160, least=1),
            text_within("holdpoint", "seen", 200),
            text_within("holdpoint", "asks", 60),
            text_within("holdpoint", "unit", 12),
            text_within("holdpoint", "value", 80),
            number_within("holdpoint", "low_milli", -MOST_MILLI, MOST_MILLI),
            number_within("holdpoint", "high_milli", -MOST_MILLI, MOST_MILLI),
            text_within("holdpoint", "outsider", NAME_MOST),
            models.CheckConstraint(
                condition=Q(outsider="") | Q(signed_at__isnull=False), name="holdpoint_outsider_signed"
            ),
            models.CheckConstraint(
                condition=Q(signed_at=None, signed_by=None) | Q(signed_at__isnull=False, signed_by__isnull=False),
                name="holdpoint_signed_by_someone",
            ),
        ]

    def __str__(self) -> str:
        return self.what

    @property
    def bounds(self) -> str:
        """`40 to 50 N·m`; empty where any figure will do."""
        low, high = (
            "" if bound is None else number_words(Fraction(bound, 1000), 3)
            for bound in (self.low_milli, self.high_milli)
        )
        if low and high:
            return f"{low} to {high} {self.unit}"
        if low or high:
            return f"no {'less' if low else 'more'} than {low or high} {self.unit}"
        return ""

    @property
    def asked(self) -> str:
        """What is to be written beside the signature: `Torque, 40 to 50 N·m`."""
        return ", ".join(filter(None, [self.asks, self.bounds or self.unit]))

    @property
    def answer(self) -> str:
        """What was written beside it: `Torque: 45 N·m`."""
        return f"{self.asks}: {self.value} {self.unit}".strip() if self.value else ""

"""A need: what a job wants from the shelf, or must get before it can be done."""

from typing import Self

from django.db import models
from django.db.models import Q

from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES
from garage.models.bounds import number_within, text_within
from garage.models.scoped import ScopedQuerySet
from parts.engine.fit import Interface, read_all
from parts.models import Part
from parts.models.part import MOST


class NeedQuerySet(ScopedQuerySet):
    garage_path = "job__vehicle__garage"

    def open(self) -> Self:
        """Not yet at hand, for a job that is still to do."""
        return self.filter(got_at=None, job__state__in=OPEN_STATES, job__vehicle__gone_at=None)

    def of(self, job: Job) -> Self:
        return self.filter(job=job)

    def with_ends(self) -> Self:
        return self.select_related("part", "job__vehicle")


class Need(models.Model):
    """`part` when it is known which; else `what` says it in words. Ordered once `expected_on`.

    `lead_days` pass between the order and the day on which it is here, None while nobody said.

    `fit` is what it must fit, as interfaces that `parts.engine.fit` reads.
    """

    job = models.ForeignKey(Job, models.CASCADE, related_name="needs")
    part = models.ForeignKey(Part, models.PROTECT, null=True, blank=True, related_name="needed_by")
    what = models.CharField(max_length=120)
    fit = models.JSONField(default=list, blank=True)
    quantity = models.PositiveIntegerField(default=1)
    supplier = models.CharField(max_length=80, blank=True)
    expected_on = models.DateField(null=True, blank=True)
    lead_days = models.PositiveSmallIntegerField("days it takes to come", null=True, blank=True)
    cost_minor = models.PositiveBigIntegerField(null=True, blank=True)
    asked_at = models.DateTimeField()
    got_at = models.DateTimeField(null=True, blank=True)

    objects = NeedQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        indexes = [models.Index(fields=["job"], condition=Q(got_at=None), name="need_open")]
        constraints = [
            text_within("need", "what", 120, least=1),
            text_within("need", "supplier", 80),
            number_within("need", "quantity", 1, MOST),
            number_within("need", "lead_days", 0, 365),
            number_within("need", "cost_minor", 0, 10**12),
        ]

    def __str__(self) -> str:
        return self.what

    @property
    def must_fit(self) -> tuple[Interface, ...]:
        """What it must fit, read; empty when nobody said."""
        return read_all(self.fit)

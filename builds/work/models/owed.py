"""What a car lacks because another was saved with it, and which job a part went into."""

from typing import Self

from django.db import models

from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES
from garage.models import Vehicle
from garage.models.scoped import ScopedQuerySet
from parts.models import Move, Part


class OwedQuerySet(ScopedQuerySet):
    garage_path = "vehicle__garage"

    def open(self) -> Self:
        return self.filter(job__state__in=OPEN_STATES)

    def standing(self) -> Self:
        """Paid or not, of parts whose pulling was not undone."""
        return self.filter(move__reversed_by=None)


class Owed(models.Model):
    """`move` took the part off the car; it is owed as long as `job`, to give it back, is open."""

    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="owed")
    move = models.OneToOneField(Move, models.PROTECT, related_name="owed")
    job = models.OneToOneField(Job, models.CASCADE, related_name="owed")
    given_back = models.ForeignKey(Move, models.PROTECT, null=True, blank=True, related_name="gave_back")

    objects = OwedQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.move.part} of {self.vehicle}"


class PartUseQuerySet(ScopedQuerySet):
    garage_path = "job__vehicle__garage"

    def of(self, job: Job, part: Part) -> Self:
        return self.filter(job=job, move__part=part)

    def standing(self) -> Self:
        """Of moves that were not undone."""
        return self.filter(move__reversed_by=None)


class PartUse(models.Model):
    """A move that was made for a job."""

    job = models.ForeignKey(Job, models.CASCADE, related_name="parts_used")
    move = models.OneToOneField(Move, models.PROTECT, related_name="use")

    objects = PartUseQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]

"""What a car lacks because another was saved with it, and which job a part went into."""

from typing import Self

from django.db import models
from django.db.models import Q

from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES, State
from garage.models import Vehicle
from garage.models.scoped import ScopedQuerySet
from parts.models import Move, Part

_OFF = Q(given_back=None, move__reversed_by=None)


class OwedQuerySet(ScopedQuerySet):
    garage_path = "vehicle__garage"

    def open(self) -> Self:
        """What a car lacks, its job dropped or not, until it has it back or the owner says that it does without."""
        return self.filter(Q(job__state__in=OPEN_STATES) | _OFF & Q(job__state=State.DROPPED, job__whole_because=""))

    def off(self) -> Self:
        """What came off a car and is not back on it, whatever became of its job."""
        return self.filter(_OFF)

    def standing(self) -> Self:
        """Paid or not, of parts whose pulling was not undone."""
        return self.filter(move__reversed_by=None)


class Owed(models.Model):
    """`move` took the part off the car; it is owed until `job`, to give it back, is done."""

    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="owed")
    move = models.OneToOneField(Move, models.PROTECT, related_name="owed")
    job = models.OneToOneField(Job, models.CASCADE, related_name="owed")
    given_back = models.ForeignKey(Move, models.PROTECT, null=True, blank=True, related_name="gave_back")

    objects = OwedQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.move.part} of {self.vehicle}"

    @property
    def is_off(self) -> bool:
        return self.given_back_id is None and not hasattr(self.move, "reversed_by")


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

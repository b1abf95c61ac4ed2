"""A finding: something seen on a car while doing something else."""

from django.db import models

from builds.work.models.job import Job
from garage.models import Membership
from garage.models.bounds import text_within
from garage.models.scoped import ScopedQuerySet


class FindingQuerySet(ScopedQuerySet):
    garage_path = "during__vehicle__garage"


class Finding(models.Model):
    during = models.ForeignKey(Job, models.CASCADE, related_name="findings")
    opened = models.OneToOneField(Job, models.CASCADE, related_name="finding")
    line = models.CharField(max_length=120)
    hurts = models.BooleanField("someone could get hurt", default=False)
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    at = models.DateTimeField()

    objects = FindingQuerySet.as_manager()

    class Meta:
        ordering = ["-at"]
        constraints = [text_within("finding", "line", 120, least=1)]

    def __str__(self) -> str:
        return self.line

"""How old a garage lets its readings be."""

from django.db import models

from garage.models import Garage
from garage.models.bounds import number_within, text_within
from garage.models.scoped import ScopedQuerySet

MOST_DAYS = 3650


class ReadingAgeQuerySet(ScopedQuerySet):
    owner_only = True


class ReadingAge(models.Model):
    """Readings of that kind (key) count for so many days; of an empty key, all that name none."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="reading_ages")
    kind = models.CharField(max_length=40, blank=True)
    days = models.PositiveSmallIntegerField()

    objects = ReadingAgeQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "kind"], name="readingage_once"),
            text_within("readingage", "kind", 40),
            number_within("readingage", "days", 1, MOST_DAYS),
        ]

"""A station: a place that work needs and that only so many jobs can share."""

from django.db import models

from garage.engine.hours import week_words
from garage.models.bounds import number_within, text_within
from garage.models.garage import Garage
from garage.models.scoped import ScopedQuerySet


class StationQuerySet(ScopedQuerySet):
    owner_only = True


class Station(models.Model):
    """A car is in one station at a time of those that it stands in; a bench or a welder is none."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="stations")
    slug = models.SlugField(max_length=40)
    name = models.CharField(max_length=40)
    capacity = models.PositiveSmallIntegerField(default=1)
    stands = models.BooleanField("a car stands in it", default=False)
    always_open = models.BooleanField(default=True)

    objects = StationQuerySet.as_manager()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "slug"], name="station_once"),
            text_within("station", "slug", 40, least=1),
            text_within("station", "name", 40, least=1),
            number_within("station", "capacity", 1, 50),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def week(self) -> str:
        """The hours of the week in a line."""
        return week_words([hours.stretch for hours in self.weekly_hours.all()])

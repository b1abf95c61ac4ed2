"""A dimension of a car: a figure of its geometry, as it was measured, by whom and when."""

from django.db import models

from garage.models import Membership, Vehicle
from garage.models.bounds import one_of, text_within
from garage.models.scoped import OfCarsQuerySet

TYPED_MOST = 2_000


class Dimension(models.Model):
    """`figure` is of the bench's table of dimensions, `typed` as it was typed in `units`; the newest of each counts."""

    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="dimensions")
    figure = models.CharField(max_length=40)
    typed = models.CharField(max_length=TYPED_MOST)
    units = models.CharField(max_length=10)
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    at = models.DateTimeField()

    objects = OfCarsQuerySet.as_manager()

    class Meta:
        ordering = ["-at", "-pk"]
        indexes = [models.Index(fields=["vehicle", "-at"], name="dimension_newest")]
        constraints = [
            text_within("dimension", "figure", 40, least=1),
            text_within("dimension", "typed", TYPED_MOST, least=1),
            one_of("dimension", "units", ["metric", "imperial"]),
        ]

    def __str__(self) -> str:
        return self.figure

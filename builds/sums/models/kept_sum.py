"""A sum that was kept on a car: what was typed, what came of it, by whom and when."""

from django.db import models

from garage.models import Membership, Vehicle
from garage.models.bounds import one_of, text_within
from garage.models.scoped import OfCarsQuerySet


class KeptSum(models.Model):
    """`name` of the catalogue; `typed` by slug as it was typed in `units`.

    `said` is label, figure and slug of each answer; what was kept before slugs were has the first two alone.
    """

    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="kept_sums")
    name = models.CharField(max_length=40)
    units = models.CharField(max_length=10)
    typed = models.JSONField(default=dict)
    said = models.JSONField(default=list)
    warnings = models.JSONField(default=list, blank=True)
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    at = models.DateTimeField()

    objects = OfCarsQuerySet.as_manager()

    class Meta:
        ordering = ["-at", "-pk"]
        indexes = [models.Index(fields=["vehicle", "-at"], name="keptsum_newest")]
        constraints = [
            text_within("keptsum", "name", 40, least=1),
            one_of("keptsum", "units", ["metric", "imperial"]),
        ]

    def __str__(self) -> str:
        return self.name

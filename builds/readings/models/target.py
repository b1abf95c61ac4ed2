"""Where a car's readings should be, and which of them it must have."""

from django.db import models
from django.db.models import Q

from builds.readings.models.reading import MOST, KindQuerySet, OwnKind, kind_or_own
from garage.models import Membership, Vehicle
from garage.models.bounds import number_within, text_within
from garage.models.scoped import ScopedQuerySet


class Target(models.Model):
    """A figure's target and how far off it may be, whole stored units, and as they were typed."""

    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="targets")
    kind = models.CharField(max_length=40, blank=True)
    own = models.ForeignKey(OwnKind, models.CASCADE, null=True, blank=True, related_name="targets")
    field = models.CharField(max_length=40)
    amount = models.BigIntegerField()
    tolerance = models.PositiveBigIntegerField()
    typed = models.CharField(max_length=24)
    tolerance_typed = models.CharField(max_length=24)
    unit = models.CharField(max_length=12, blank=True)

    objects = KindQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["vehicle", "kind", "field"], condition=Q(own=None), name="target_once"),
            models.UniqueConstraint(
                fields=["vehicle", "own", "field"],
                condition=Q(own__isnull=False),
                name="target_own_once",
            ),
            kind_or_own("target"),
            text_within("target", "kind", 40),
            text_within("target", "field", 40, least=1),
            text_within("target", "typed", 24, least=1),
            text_within("target", "tolerance_typed", 24, least=1),
            text_within("target", "unit", 12),
            number_within("target", "amount", -MOST, MOST),
            number_within("target", "tolerance", 0, MOST),
        ]

    @property
    def key(self) -> str:
        return self.kind or f"own-{self.own_id}"


class RequiredReadingsQuerySet(ScopedQuerySet):
    garage_path = "vehicle__garage"
    owner_only = True


class RequiredReadings(models.Model):
    """The kinds (keys) that a car must have; without a row nobody has said, which is not none."""

    vehicle = models.OneToOneField(Vehicle, models.CASCADE, related_name="required_readings")
    kinds = models.JSONField(default=list, blank=True)
    chosen_by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    chosen_at = models.DateTimeField()

    objects = RequiredReadingsQuerySet.as_manager()

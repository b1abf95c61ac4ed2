"""A part: something counted (bolts, fluid, tyres), or one of a kind with a history."""

from typing import Self

from django.db import models
from django.db.models import F, Q
from django.db.models.functions import Coalesce

from garage.engine.systems_said import systems_said
from garage.engine.units_said import unit_said
from garage.models import Garage, Membership
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import ScopedQuerySet

MOST = 1_000_000_000
STORE_KINDS = ["shelf", "bin", "van", "trailer"]


class PartQuerySet(ScopedQuerySet):
    def kept(self) -> Self:
        return self.filter(gone_at=None)

    def low(self) -> Self:
        """Consumables whose stores hold less than the level that the owner set."""
        held = models.Sum("balances__quantity", filter=Q(balances__place__kind__in=STORE_KINDS))
        return self.filter(low_level__isnull=False).annotate(held=Coalesce(held, 0)).filter(held__lt=F("low_level"))


class Part(models.Model):
    class Unit(models.TextChoices):
        PIECE = "piece", "pieces"
        MILLILITRE = "ml", "ml"
        GRAM = "g", "g"
        MILLIMETRE = "mm", "mm"

    class Condition(models.TextChoices):
        NEW = "new", "new"
        GOOD = "good", "used, good"
        UNKNOWN = "unknown", "used, unknown"
        REPAIR = "repair", "to repair"
        SCRAP = "scrap", "scrap"

    DOUBTED = (Condition.UNKNOWN, Condition.REPAIR, Condition.SCRAP)

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="parts")
    code = models.CharField(max_length=10)
    name = models.CharField(max_length=120)
    number = models.CharField("maker's or own number", max_length=60, blank=True)
    systems = models.JSONField(default=list, blank=True)
    interfaces = models.JSONField(default=list, blank=True)
    single = models.BooleanField("one of a kind", default=False)
    one_use = models.BooleanField("never used twice", default=False)
    unit = models.CharField(max_length=10, choices=Unit.choices, default=Unit.PIECE)
    condition = models.CharField(max_length=10, choices=Condition.choices, default=Condition.UNKNOWN)
    condition_at = models.DateTimeField("when its condition was last said to be another", null=True, blank=True)
    condition_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    provenance = models.CharField("where it came from", max_length=200, blank=True)
    cost_minor = models.PositiveBigIntegerField("cost of one unit", null=True, blank=True)
    supplier = models.CharField(max_length=80, blank=True)
    low_level = models.PositiveIntegerField(null=True, blank=True)
    note = models.TextField(max_length=2000, blank=True)
    made_at = models.DateTimeField()
    gone_at = models.DateTimeField(null=True, blank=True)

    objects = PartQuerySet.as_manager()

    class Meta:
        ordering = ["name", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "code"], name="part_code_once"),
            text_within("part", "code", 10, least=10),
            text_within("part", "name", 120, least=1),
            text_within("part", "number", 60),
            text_within("part", "provenance", 200),
            text_within("part", "supplier", 80),
            text_within("part", "note", 2000),
            one_of("part", "unit", ["piece", "ml", "g", "mm"]),
            one_of("part", "condition", ["new", "good", "unknown", "repair", "scrap"]),
            number_within("part", "cost_minor", 0, 10**12),
            number_within("part", "low_level", 0, MOST),
            models.CheckConstraint(condition=Q(single=False) | Q(unit="piece"), name="part_single_is_a_piece"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def touches(self) -> tuple[str, ...]:
        """What work on it touches: its systems (slugs), or where nobody said any those that its name says."""
        return tuple(self.systems) or systems_said(self.name)

    @property
    def is_unit(self) -> bool:
        """Whether the weights of a car change without it; what nobody calls so is taken as small."""
        return self.single and unit_said(self.name)

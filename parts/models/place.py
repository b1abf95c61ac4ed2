"""A place where parts are: a shelf, a bin, a car, someone's hands, the supplier, the scrap."""

from typing import Self

from django.db import models
from django.db.models import Q

from garage.models import Garage, Vehicle
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import ScopedQuerySet

# What comes from a supplier and what a stock-take corrects has no bottom; every other place has.
OUTSIDE_KINDS = ["supplier", "counted"]
WALK_ORDER = 100  # of a place of which nobody says where on the way round it comes


class PlaceQuerySet(ScopedQuerySet):
    def inside(self) -> Self:
        return self.exclude(kind__in=OUTSIDE_KINDS)

    def outside(self) -> Self:
        return self.filter(kind__in=OUTSIDE_KINDS)

    def counted(self) -> Self:
        """With how many kinds of part each holds now."""
        held = models.Count("balances", filter=Q(balances__quantity__gt=0))
        return self.annotate(holds=held)

    def of_car(self, vehicle: Vehicle) -> "Place | None":
        return self.filter(vehicle=vehicle).first()

    def walking_order(self) -> Self:
        return self.order_by("walk_order", "name", "pk")


class Place(models.Model):
    class Kind(models.TextChoices):
        SHELF = "shelf", "shelf"
        BIN = "bin", "bin"
        VAN = "van", "van"
        TRAILER = "trailer", "trailer"
        BENCH = "bench", "pulled, on the bench"
        CAR = "car", "on a car"
        SOMEONE = "someone", "with someone"
        REPAIR = "repair", "away for repair"
        SCRAP = "scrap", "scrap"
        SUPPLIER = "supplier", "supplier"
        COUNTED = "counted", "stock-take"

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="places")
    code = models.CharField(max_length=10)
    kind = models.CharField(max_length=10, choices=Kind.choices, default=Kind.SHELF)
    name = models.CharField(max_length=60)
    vehicle = models.OneToOneField(Vehicle, models.CASCADE, null=True, blank=True, related_name="place")
    walk_order = models.PositiveSmallIntegerField(default=WALK_ORDER)

    objects = PlaceQuerySet.as_manager()

    class Meta:
        ordering = ["walk_order", "name", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "code"], name="place_code_once"),
            models.UniqueConstraint(fields=["garage", "kind", "name"], name="place_name_once"),
            text_within("place", "code", 10, least=10),
            text_within("place", "name", 60, least=1),
            number_within("place", "walk_order", 0, 9999),
            one_of(
                "place",
                "kind",
                [
                    "shelf",
                    "bin",
                    "van",
                    "trailer",
                    "bench",
                    "car",
                    "someone",
                    "repair",
                    "scrap",
                    "supplier",
                    "counted",
                ],
            ),
            models.CheckConstraint(
                condition=Q(kind="car", vehicle__isnull=False) | (~Q(kind="car") & Q(vehicle__isnull=True)),
                name="place_of_a_car",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def outside(self) -> bool:
        return self.kind in OUTSIDE_KINDS

"""A vehicle of the fleet, known by its name and the colour of its tape."""

from collections import Counter
from typing import TYPE_CHECKING, Self

from django.db import models

from garage.models.bounds import number_within, one_of, text_within
from garage.models.garage import Garage
from garage.models.scoped import ScopedQuerySet

if TYPE_CHECKING:
    from garage.models.membership import Membership


class VehicleQuerySet(ScopedQuerySet):
    owner_only = True

    def on_cars_of(self, member: "Membership") -> Self:
        rows = self.visible_to(member)
        return rows if member.only_cars is None else rows.filter(pk__in=member.only_cars)

    def kept(self) -> Self:
        return self.filter(gone_at=None)

    def gone(self) -> Self:
        return self.exclude(gone_at=None)

    def free_tape(self) -> str:
        """A colour that none of these has, else the one that the fewest have."""
        taken = Counter(self.values_list("tape", flat=True))
        return min(Vehicle.Tape.values, key=lambda tape: taken[tape])


class Vehicle(models.Model):
    class Tape(models.TextChoices):
        GREEN = "green", "green"
        ORANGE = "orange", "orange"
        PURPLE = "purple", "purple"
        GREY = "grey", "grey"
        BLUE = "blue", "blue"
        RED = "red", "red"
        WHITE = "white", "white"
        YELLOW = "yellow", "yellow"
        BROWN = "brown", "brown"
        PINK = "pink", "pink"

    class State(models.TextChoices):
        DRIVEABLE = "driveable", "driveable"
        ROLLING = "rolling", "rolling, not driveable"
        STANDS = "stands", "on stands"

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="vehicles")
    name = models.CharField(max_length=40)
    tape = models.CharField(max_length=10, choices=Tape.choices, default=Tape.GREEN)
    what = models.CharField("what it is", max_length=120, blank=True)
    state = models.CharField(max_length=10, choices=State.choices, default=State.DRIVEABLE)
    stood = models.CharField("how it stood before it was taken apart", max_length=10, blank=True, default="")
    wheelbase_um = models.PositiveIntegerField(null=True, blank=True)
    track_front_um = models.PositiveIntegerField(null=True, blank=True)
    track_rear_um = models.PositiveIntegerField(null=True, blank=True)
    gone_at = models.DateTimeField(null=True, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    objects = VehicleQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "name"], name="vehicle_name_once"),
            text_within("vehicle", "name", 40, least=1),
            text_within("vehicle", "what", 120),
            one_of("vehicle", "state", ["driveable", "rolling", "stands"]),
            one_of("vehicle", "stood", ["", "driveable", "rolling"]),
            number_within("vehicle", "wheelbase_um", 500_000, 8_000_000),
            number_within("vehicle", "track_front_um", 300_000, 4_000_000),
            number_within("vehicle", "track_rear_um", 300_000, 4_000_000),
        ]

    def __str__(self) -> str:
        return self.name

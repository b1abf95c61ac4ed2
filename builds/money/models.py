"""What the owner wants to spend at most on a car or for an event."""

from django.db import models
from django.db.models import Q

from garage.models import Event, Garage, Vehicle
from garage.models.bounds import number_within
from garage.models.scoped import ScopedQuerySet


class BudgetQuerySet(ScopedQuerySet):
    owner_only = True


class Budget(models.Model):
    """In minor units of the garage's currency; of a car or of an event, never of both."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="budgets")
    vehicle = models.OneToOneField(Vehicle, models.CASCADE, null=True, blank=True, related_name="budget")
    event = models.OneToOneField(Event, models.CASCADE, null=True, blank=True, related_name="budget")
    minor = models.PositiveBigIntegerField()

    objects = BudgetQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            number_within("budget", "minor", 0, 10**12),
            models.CheckConstraint(
                condition=Q(vehicle__isnull=False, event=None) | Q(vehicle=None, event__isnull=False),
                name="budget_of_one_thing",
            ),
        ]

    def __str__(self) -> str:
        return f"budget of {self.vehicle or self.event}"

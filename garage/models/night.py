"""Hours between two days of an event, in which cars are repaired there."""

from datetime import datetime
from typing import Self

from django.db import models

from garage.models.bounds import in_order
from garage.models.event import Event
from garage.models.scoped import ScopedQuerySet


class NightQuerySet(ScopedQuerySet):
    garage_path = "event__garage"
    owner_only = True

    def ahead(self, now: datetime) -> Self:
        """Those whose morning has still to come, the next first."""
        return self.filter(due_at__gt=now).order_by("from_at", "pk")

    def for_car(self, vehicle: int) -> Self:
        """Of events to which that car (pk) is coming."""
        return self.filter(event__entries__vehicle=vehicle, event__entries__withdrawn_at=None)


class Night(models.Model):
    """Whoever goes to the event works in the paddock from `from_at` to `until_at`; cars are ready by `due_at`."""

    event = models.ForeignKey(Event, models.CASCADE, related_name="nights")
    from_at = models.DateTimeField("work begins")
    until_at = models.DateTimeField("work ends")
    due_at = models.DateTimeField("cars must be ready")

    objects = NightQuerySet.as_manager()

    class Meta:
        ordering = ["from_at", "pk"]
        constraints = [
            in_order("night", "from_at", "until_at"),
            models.CheckConstraint(
                condition=models.Q(until_at__lte=models.F("due_at")), name="night_until_at_by_due_at"
            ),
        ]

    def __str__(self) -> str:
        return f"the paddock, {self.event}"

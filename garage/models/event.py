"""An event and the cars entered for it; the car is due when it must leave the garage."""

from datetime import datetime, timedelta
from typing import Self

from django.db import models

from garage.models.bounds import number_within, text_within
from garage.models.garage import Garage
from garage.models.scoped import ScopedQuerySet
from garage.models.vehicle import Vehicle


class EventQuerySet(ScopedQuerySet):
    owner_only = True

    def upcoming(self, now: datetime) -> Self:
        return self.filter(ends_at__gt=now).order_by("gates_at")

    def past(self, now: datetime) -> Self:
        return self.filter(ends_at__lte=now).order_by("-gates_at")


class Event(models.Model):
    garage = models.ForeignKey(Garage, models.CASCADE, related_name="events")
    name = models.CharField(max_length=80)
    place = models.CharField(max_length=120, blank=True)
    gates_at = models.DateTimeField("gates open")
    scrutineering_at = models.DateTimeField("scrutineering", null=True, blank=True)
    ends_at = models.DateTimeField("ends")
    travel_minutes = models.PositiveIntegerField(default=60)
    organiser = models.CharField(max_length=80, blank=True)
    runs = models.PositiveSmallIntegerField("runs of each car", default=4)
    note = models.TextField(max_length=2000, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    objects = EventQuerySet.as_manager()

    class Meta:
        ordering = ["gates_at"]
        constraints = [
            text_within("event", "name", 80, least=1),
            text_within("event", "place", 120),
            text_within("event", "note", 2000),
            number_within("event", "travel_minutes", 0, 7 * 24 * 60),
            text_within("event", "organiser", 80),
            number_within("event", "runs", 1, 99),
            models.CheckConstraint(
                condition=models.Q(gates_at__lte=models.F("ends_at")), name="event_gates_before_end"
            ),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def due_at(self) -> datetime:
        """When a car must leave: there by the earlier of gates and scrutineering."""
        there = min(self.gates_at, self.scrutineering_at or self.gates_at)
        return there - timedelta(minutes=self.travel_minutes)


class EntryQuerySet(ScopedQuerySet):
    garage_path = "event__garage"
    owner_only = True

    def coming(self) -> Self:
        """Those that were not withdrawn."""
        return self.filter(withdrawn_at=None)

    def upcoming(self, now: datetime) -> Self:
        return self.coming().filter(event__ends_at__gt=now).order_by("event__gates_at", "pk")

    def kept(self) -> Self:
        """Of cars that are still here, and coming."""
        return self.coming().filter(vehicle__gone_at=None)


class Entry(models.Model):
    """A car in an event; the weight says how much it matters that this car makes it.

    One whose ticks are on record is withdrawn, not deleted: what was looked at stays to be read.
    """

    event = models.ForeignKey(Event, models.CASCADE, related_name="entries")
    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="entries")
    weight = models.PositiveSmallIntegerField(default=1)
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    objects = EntryQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["event", "vehicle"], name="entry_once"),
            number_within("entry", "weight", 1, 9),
        ]

    def __str__(self) -> str:
        return f"{self.vehicle} at {self.event}"

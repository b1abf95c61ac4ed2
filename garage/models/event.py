"""An event and the cars entered for it; the car is due when it must leave the garage."""

from datetime import datetime, timedelta
from typing import Self

from django.db import models

from garage.models.bounds import number_within, one_of, text_within
from garage.models.garage import Garage
from garage.models.membership import Membership
from garage.models.scoped import ScopedQuerySet
from garage.models.vehicle import Vehicle

MOST_TRAVEL = 7 * 24 * 60  # minutes


class EventQuerySet(ScopedQuerySet):
    owner_only = True

    def upcoming(self, now: datetime) -> Self:
        return self.filter(ends_at__gt=now).order_by("gates_at")

    def not_back(self, since: datetime) -> Self:
        """Those from which somebody may still be on the way home."""
        return self.filter(ends_at__gt=since - timedelta(minutes=MOST_TRAVEL))

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
    people = models.ManyToManyField(Membership, blank=True, related_name="events", verbose_name="who goes")
    created_at = models.DateTimeField(auto_now_add=True)

    objects = EventQuerySet.as_manager()

    class Meta:
        ordering = ["gates_at"]
        constraints = [
            text_within("event", "name", 80, least=1),
            text_within("event", "place", 120),
            text_within("event", "note", 2000),
            number_within("event", "travel_minutes", 0, MOST_TRAVEL),
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

    @property
    def back_at(self) -> datetime:
        """When whoever goes is home again."""
        return self.ends_at + timedelta(minutes=self.travel_minutes)


class EntryQuerySet(ScopedQuerySet):
    garage_path = "event__garage"
    car_path = "vehicle"
    owner_only = True

    def coming(self) -> Self:
        """Those that were not withdrawn."""
        return self.filter(withdrawn_at=None)

    def may_have_run(self) -> Self:
        """Those that were coming when their event began, though they were withdrawn since."""
        return self.filter(models.Q(withdrawn_at=None) | models.Q(withdrawn_at__gte=models.F("event__gates_at")))

    def upcoming(self, now: datetime) -> Self:
        return self.coming().filter(event__ends_at__gt=now).order_by("event__gates_at", "pk")

    def kept(self) -> Self:
        """Of cars that are still here, and coming."""
        return self.coming().filter(vehicle__gone_at=None)


class Entry(models.Model):
    """A car in an event; the weight says how much it matters that this car makes it.

    `travels` is how it gets there, empty while nobody said; `tow` the garage's own vehicle that pulls or
    carries it, None for somebody else's; `trailer` which one it is on. An entry whose ticks are on record
    is withdrawn, not deleted: what was looked at stays to be read.
    """

    class Travels(models.TextChoices):
        DRIVEN = "driven", "driven on the road"
        TRAILER = "trailer", "on a trailer"
        VAN = "van", "in a van"

    event = models.ForeignKey(Event, models.CASCADE, related_name="entries")
    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="entries")
    weight = models.PositiveSmallIntegerField(default=1)
    travels = models.CharField("how it gets there", max_length=10, choices=Travels.choices, blank=True, default="")
    tow = models.ForeignKey(
        Vehicle, models.SET_NULL, null=True, blank=True, related_name="takes", verbose_name="what takes it"
    )
    trailer = models.CharField("which trailer", max_length=40, blank=True, default="")
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    objects = EntryQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["event", "vehicle"], name="entry_once"),
            number_within("entry", "weight", 1, 9),
            one_of("entry", "travels", ["", "driven", "trailer", "van"]),
            text_within("entry", "trailer", 40),
            models.CheckConstraint(
                condition=models.Q(trailer="") | models.Q(travels="trailer"), name="entry_trailer_of_one_on_a_trailer"
            ),
            models.CheckConstraint(
                condition=models.Q(tow=None)
                | models.Q(travels__in=["trailer", "van"]) & ~models.Q(tow=models.F("vehicle")),
                name="entry_taken_by_another",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.vehicle} at {self.event}"

"""A garage: the walls around everything else."""

from typing import Any

from django.db import models

from garage.models.bounds import one_of, text_within


class Garage(models.Model):
    class Units(models.TextChoices):
        METRIC = "metric", "metric (mm, kg, N·m, °C)"
        IMPERIAL = "imperial", "imperial (in, lb, lbf·ft, °F)"

    class Paper(models.TextChoices):
        A4 = "a4", "A4"
        LETTER = "letter", "Letter"

    name = models.CharField(max_length=80)
    time_zone = models.CharField(max_length=64, default="UTC")
    units = models.CharField(max_length=10, choices=Units.choices, default=Units.METRIC)
    paper = models.CharField(max_length=10, choices=Paper.choices, default=Paper.A4)
    currency = models.CharField(max_length=3, default="EUR", help_text="ISO 4217, such as EUR")
    log_counts = models.BooleanField("odds count with the log", default=False)
    used_cost_counts = models.BooleanField("used parts count at what they cost", default=True)
    writes = models.PositiveBigIntegerField("writes so far", default=0)
    written_at = models.DateTimeField(null=True, editable=False)
    invented = models.BooleanField("nothing in it is real", default=False)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            text_within("garage", "name", 80, least=1),
            text_within("garage", "time_zone", 64, least=1),
            text_within("garage", "currency", 3, least=3),
            one_of("garage", "units", ["metric", "imperial"]),
            one_of("garage", "paper", ["a4", "letter"]),
        ]

    def __str__(self) -> str:
        return self.name

    def save(self, *args: Any, **more: Any) -> None:
        """A row that was read a while ago never sets the count of writes back: `writes.count` alone changes it."""
        if not self._state.adding and not args and more.get("update_fields") is None:
            names = {field.name for field in self._meta.concrete_fields if not field.primary_key}
            more["update_fields"] = names - {"writes", "written_at"}
        super().save(*args, **more)

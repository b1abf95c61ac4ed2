"""How warm the shop is: each day's low and high, the hours it is heated, and what was read."""

from datetime import date, datetime
from typing import Self

from django.db import models
from django.db.models import F, Q

from garage.models import Garage, Membership
from garage.models.bounds import in_order, number_within
from garage.models.hours import WEEKDAYS
from garage.models.scoped import ScopedQuerySet

# Thousandths of a °C, so that what was typed in °F is shown back as typed.
COLDEST_MC, WARMEST_MC = -40_000, 60_000


class ShopDayQuerySet(ScopedQuerySet):
    def on(self, days: list[date]) -> Self:
        return self.filter(day__in=days)

    def after(self, day: date) -> Self:
        return self.filter(day__gt=day)


class ShopDay(models.Model):
    """Lowest and highest temperature of a local day, unheated; it holds until the next one given.

    A day whose low is its high is the start of a temperature that stays as it is.
    """

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="shop_days")
    day = models.DateField()
    low_mc = models.IntegerField()
    high_mc = models.IntegerField()

    objects = ShopDayQuerySet.as_manager()

    class Meta:
        ordering = ["day"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "day"], name="shopday_once"),
            number_within("shopday", "low_mc", COLDEST_MC, WARMEST_MC),
            number_within("shopday", "high_mc", COLDEST_MC, WARMEST_MC),
            models.CheckConstraint(condition=Q(low_mc__lte=F("high_mc")), name="shopday_low_below_high"),
        ]


class HeatedHours(models.Model):
    """A stretch of every such weekday, or of one day, in which the shop is at least so warm."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="heated_hours")
    weekday = models.PositiveSmallIntegerField(null=True, blank=True, choices=list(enumerate(WEEKDAYS)))
    day = models.DateField(null=True, blank=True)
    from_minute = models.PositiveSmallIntegerField()
    until_minute = models.PositiveSmallIntegerField()
    warm_mc = models.IntegerField()

    objects = ScopedQuerySet.as_manager()

    class Meta:
        ordering = ["day", "weekday", "from_minute"]
        constraints = [
            number_within("heatedhours", "weekday", 0, 6),
            number_within("heatedhours", "until_minute", 1, 1440),
            number_within("heatedhours", "warm_mc", COLDEST_MC, WARMEST_MC),
            in_order("heatedhours", "from_minute", "until_minute"),
            models.CheckConstraint(
                condition=Q(weekday=None, day__isnull=False) | Q(weekday__isnull=False, day=None),
                name="heatedhours_weekday_or_day",
            ),
        ]

    def falls_on(self, day: date) -> bool:
        return self.day == day or self.weekday == day.weekday()


class TemperatureReadingQuerySet(ScopedQuerySet):
    def since(self, moment: datetime) -> Self:
        return self.filter(at__gte=moment)

    def newest(self) -> Self:
        return self.order_by("-at", "-pk")


class TemperatureReading(models.Model):
    """What a thermometer in the shop said; `metal_mc` is that of the part, where it was taken."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="temperature_readings")
    at = models.DateTimeField()
    air_mc = models.IntegerField()
    humidity = models.PositiveSmallIntegerField(null=True, blank=True)
    metal_mc = models.IntegerField(null=True, blank=True)
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")

    objects = TemperatureReadingQuerySet.as_manager()

    class Meta:
        ordering = ["at", "pk"]
        indexes = [models.Index(fields=["garage", "-at"], name="temperature_newest")]
        constraints = [
            number_within("temperaturereading", "air_mc", COLDEST_MC, WARMEST_MC),
            number_within("temperaturereading", "metal_mc", COLDEST_MC, WARMEST_MC),
            number_within("temperaturereading", "humidity", 1, 100),
        ]

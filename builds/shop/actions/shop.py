"""How warm the shop is: days entered, hours heated, thermometers read."""

from collections.abc import Iterable, Mapping
from datetime import date, datetime

from django.db import transaction

from builds.cure.models.shop import HeatedHours, ShopDay, TemperatureReading
from garage.models import Garage, Membership


@transaction.atomic
def set_days(garage: Garage, days: Mapping[date, tuple[int, int] | None]) -> None:
    """Lows and highs in thousandths of a °C; a day with None is again like the one before it."""
    ShopDay.objects.in_garage(garage).on(list(days)).delete()
    ShopDay.objects.bulk_create(
        ShopDay(garage=garage, day=day, low_mc=given[0], high_mc=given[1])
        for day, given in days.items()
        if given is not None
    )


@transaction.atomic
def hold_at(garage: Garage, day: date, temperature_mc: int) -> None:
    """From that day on the same by day and by night."""
    ShopDay.objects.in_garage(garage).after(day).delete()
    set_days(garage, {day: (temperature_mc, temperature_mc)})


@transaction.atomic
def heat(
    garage: Garage,
    *,
    weekdays: Iterable[int],
    day: date | None,
    hours: Iterable[tuple[int, int]],
    warm_mc: int,
) -> None:
    """The shop is at least so warm in these stretches of each weekday, or of one day."""
    hours = list(hours)
    HeatedHours.objects.bulk_create(
        HeatedHours(
            garage=garage,
            weekday=weekday,
            day=day if weekday is None else None,
            from_minute=since,
            until_minute=until,
            warm_mc=warm_mc,
        )
        for weekday in (list(weekdays) or [None])
        for since, until in hours
    )


def heat_no_more(heated: HeatedHours) -> None:
    HeatedHours.objects.filter(pk=heated.pk).delete()


def read(
    garage: Garage,
    *,
    by: Membership,
    at: datetime,
    air_mc: int,
    humidity: int | None = None,
    metal_mc: int | None = None,
) -> TemperatureReading:
    """Write down what the thermometer says; whatever cures is told anew from it."""
    return TemperatureReading.objects.create(
        garage=garage, by=by, at=at, air_mc=air_mc, humidity=humidity, metal_mc=metal_mc
    )


def forget(reading: TemperatureReading) -> None:
    TemperatureReading.objects.filter(pk=reading.pk).delete()

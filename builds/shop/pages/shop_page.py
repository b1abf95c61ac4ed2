"""All that the shop's page says."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from builds.cure.engine.air import Air, air_now
from builds.cure.engine.degrees import celsius, degrees_words
from builds.cure.engine.dew_point import SWEATS
from builds.cure.engine.shop_air import Shop
from builds.cure.models.shop import HeatedHours, TemperatureReading
from builds.shop.pages.cures import CureClock, running_cures
from builds.work.facts.work import load_work
from garage.clock import clock_words
from garage.engine.hours import DAYS, minute_words
from garage.engine.moments import day_words
from garage.engine.units import Unit, unit_for
from garage.models import Garage

DAYS_SHOWN, READINGS_SHOWN = 8, 8


@dataclass(frozen=True)
class DayRow:
    label: str
    low: str
    high: str
    entered: bool
    heated: str


@dataclass(frozen=True)
class HeatRow:
    pk: int
    when: str
    warm: str


@dataclass(frozen=True)
class ReadingRow:
    pk: int
    when: str
    air: str
    more: tuple[str, ...]
    by: str


@dataclass(frozen=True)
class ShopView:
    """`now` is the temperature, `told` where it is known from; `dew` is empty when not known."""

    now: str
    told: str
    dew: str
    is_example: bool
    days: tuple[DayRow, ...]
    heated: tuple[HeatRow, ...]
    readings: tuple[ReadingRow, ...]
    cures: tuple[CureClock, ...]


def shop_view(garage: Garage, at: datetime) -> ShopView:
    """The queries of the work and three more, however much was entered."""
    work, unit = load_work(garage, at), unit_for("temperature", garage.units)
    shop = work.times.shop
    air = air_now(shop)
    return ShopView(
        now=degrees_words(air.celsius, unit),
        told=_told(air, at),
        dew="" if air.dew is None else _dew(air, unit),
        is_example=shop.is_example,
        days=tuple(_days(shop, unit)),
        heated=tuple(_heated(shop, unit)),
        readings=tuple(_readings(shop, unit)),
        cures=tuple(running_cures(work)),
    )


def _told(air: Air, at: datetime) -> str:
    return f"read {clock_words(air.read_at, at)}" if air.read_at else "as it is expected to be now"


def _dew(air: Air, unit: Unit) -> str:
    said = f"Dew point {degrees_words(air.dew or 0.0, unit)}, humidity {air.humidity:.0f} %"
    return f"{said}. {SWEATS}" if air.steel is None else said


def _days(shop: Shop, unit: Unit) -> list[DayRow]:
    return [
        DayRow(
            _label(line.day, shop.today),
            degrees_words(line.low, unit),
            degrees_words(line.high, unit),
            line.entered,
            ", ".join(
                f"{_hours(hours)} at {degrees_words(celsius(hours.warm_mc), unit)}"
                for hours in shop.entered.heated
                if hours.falls_on(line.day)
            ),
        )
        for line in shop.day_lines(DAYS_SHOWN)
    ]


def _label(day: date, today: date) -> str:
    return f"Today, {day_words(day)}" if day == today else day_words(day)


def _hours(hours: HeatedHours) -> str:
    return f"{minute_words(hours.from_minute)}–{minute_words(hours.until_minute)}"


def _heated(shop: Shop, unit: Unit) -> list[HeatRow]:
    """Weekdays in their order, then single days that are not over."""
    ahead = [hours for hours in shop.entered.heated if hours.day is None or hours.day >= shop.today]
    ahead.sort(key=lambda hours: (hours.day or date.min, hours.weekday or 0, hours.from_minute))
    return [
        HeatRow(
            hours.pk,
            f"{f'every {DAYS[hours.weekday]}' if hours.day is None else day_words(hours.day)}, {_hours(hours)}",
            degrees_words(celsius(hours.warm_mc), unit),
        )
        for hours in ahead
    ]


def _readings(shop: Shop, unit: Unit) -> list[ReadingRow]:
    return [
        ReadingRow(
            reading.pk,
            clock_words(reading.at, shop.at),
            degrees_words(celsius(reading.air_mc), unit),
            tuple(_beside(reading, unit)),
            reading.by.name,
        )
        for reading in reversed(shop.entered.readings[-READINGS_SHOWN:])
    ]


def _beside(reading: TemperatureReading, unit: Unit) -> Iterator[str]:
    """What else the thermometer was asked, where it was."""
    if reading.humidity is not None:
        yield f"humidity {reading.humidity} %"
    if reading.metal_mc is not None:
        yield f"metal {degrees_words(celsius(reading.metal_mc), unit)}"

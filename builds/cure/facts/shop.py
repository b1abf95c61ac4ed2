"""How warm a garage's shop was and will be: what was entered, and what was read off the wall."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

from builds.cure.engine import (
    AirReading,
    DayRange,
    DewCourse,
    Heat,
    ShopReading,
    Temperature,
    daily_temperature,
    fading,
    minutes_since,
    shop_temperature,
)
from builds.cure.engine.plan_clock import PlanClock
from builds.cure.models.shop import HeatedHours, ShopDay, TemperatureReading
from garage.engine.presence import wall_moment
from garage.models import Garage

AHEAD = timedelta(days=181)  # as far as a plan reaches, and a day
BACK = timedelta(days=60)  # a cure that began sooner counts as begun in the weather of then
READ_BACK = timedelta(days=30)
ROUNDING = 1e-6  # minutes: what sums over many pieces may be off by
# Until a garage says better: cold for a garage, yet not below what most paints ask for, so that
# nothing stands still for want of an entry. Common practice, no source.
EXAMPLE_LOW, EXAMPLE_HIGH = 10.0, 16.0


def celsius(thousandths: int) -> float:
    return thousandths / 1000


@dataclass(frozen=True)
class ShopDayLine:
    """A local day as it counts: its low and high in °C, and whether they were entered for it."""

    day: date
    low: float
    high: float
    entered: bool


class Shop:
    """Asked of the database at first use: three queries, and none where nothing cures.

    Minutes count from `clock.start`, the slot 0 of a plan made at `at`.
    """

    def __init__(self, garage: Garage, at: datetime) -> None:
        self.garage, self.at = garage, at
        self.zone = ZoneInfo(garage.time_zone)
        self.clock = PlanClock.from_moment(at, self.zone)
        self.today = at.astimezone(self.zone).date()

    @cached_property
    def days(self) -> list[ShopDay]:
        return list(ShopDay.objects.in_garage(self.garage))

    @cached_property
    def heated(self) -> list[HeatedHours]:
        return list(HeatedHours.objects.in_garage(self.garage))

    @cached_property
    def readings(self) -> list[TemperatureReading]:
        """Oldest first; those of the last weeks."""
        rows = TemperatureReading.objects.in_garage(self.garage).since(self.at - READ_BACK)
        return list(rows.select_related("by__person"))

    @property
    def is_example(self) -> bool:
        """Nothing was entered yet."""
        return not self.days

    @property
    def ranges(self) -> list[DayRange]:
        if self.is_example:
            return [DayRange(self.today, EXAMPLE_LOW, EXAMPLE_HIGH)]
        return [DayRange(span.day, celsius(span.low_mc), celsius(span.high_mc)) for span in self.days]

    def day_lines(self, days: int) -> list[ShopDayLine]:
        """From today on; a day without an entry is like the last one that has one, or the first."""
        ranges, lines = self.ranges, []
        for ahead in range(days):
            day = self.today + timedelta(days=ahead)
            before = [like for like in ranges if like.day <= day]
            like = before[-1] if before else ranges[0]
            entered = not self.is_example and like.day == day
            lines.append(ShopDayLine(day, like.low, like.high, entered))
        return lines

    def minute(self, moment: datetime) -> float:
        return minutes_since(self.clock.start, moment)

    def moment(self, minute: float) -> datetime:
        """The first full minute that is no sooner."""
        return self.clock.start + timedelta(minutes=math.ceil(minute - ROUNDING))

    @cached_property
    def course(self) -> Temperature:
        """°C by elapsed minutes, from the past into the farthest plan."""
        since, until = self.at - BACK, self.at + AHEAD
        forecast = daily_temperature(
            self.ranges,
            origin=self.clock.start,
            since=since,
            until=until,
            zone=self.zone,
        )
        heats = list(self._heats(since.astimezone(self.zone).date(), until))
        told = [ShopReading(self.minute(reading.at), celsius(reading.air_mc)) for reading in self.readings]
        if not told:
            return shop_temperature(forecast, heats=heats)
        expected = shop_temperature(forecast, heats=heats)
        return shop_temperature(forecast, heats=heats, readings=fading(told, expected))

    def _heats(self, first: date, until: datetime) -> Iterable[Heat]:
        for ahead in range((until.astimezone(self.zone).date() - first).days + 1):
            day = first + timedelta(days=ahead)
            for heating in self.heated:
                if heating.falls_on(day):
                    begin, end = (
                        self.minute(wall_moment(day, minute, self.zone))
                        for minute in (heating.from_minute, heating.until_minute)
                    )
                    yield Heat(begin, end, celsius(heating.warm_mc))

    @cached_property
    def dew(self) -> DewCourse | None:
        """Dew points by elapsed minutes; None where no humidity was read."""
        read = [
            AirReading(self.minute(reading.at), celsius(reading.air_mc), reading.humidity)
            for reading in self.readings
            if reading.humidity is not None
        ]
        return DewCourse.of(read) if read else None

    @property
    def newest(self) -> TemperatureReading | None:
        return self.readings[-1] if self.readings else None

    def at_moment(self, moment: datetime) -> float:
        """°C that are expected at a moment within sight."""
        return self.course.at(self.minute(moment))

"""How warm and dry a shop was and will be, from what was entered and what was read off the wall."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from functools import cached_property
from itertools import chain
from typing import Protocol
from zoneinfo import ZoneInfo

from builds.cure.engine.days import DayRange, daily_temperature, minutes_since
from builds.cure.engine.degrees import celsius
from builds.cure.engine.fading import fading
from builds.cure.engine.plan_clock import PlanClock
from builds.cure.engine.products import Product
from builds.cure.engine.shop import Heat, ShopReading, shop_temperature
from builds.cure.engine.temperature import Temperature
from builds.cure.engine.windows import AirReading, DewCourse
from garage.engine.presence import wall_moment

AHEAD = timedelta(days=181)  # as far as a plan reaches, and a day
BACK = timedelta(days=60)  # a cure that began sooner counts as begun in the weather of then
ROUNDING = 1e-6  # minutes: what sums over many pieces may be off by
# Until a garage says better: cold for a garage, yet not below what most paints ask for, so that
# nothing stands still for want of an entry. Common practice, no source.
EXAMPLE_LOW, EXAMPLE_HIGH = 10.0, 16.0


class EnteredDay(Protocol):
    """Lowest and highest of a local day, unheated, in thousandths of a °C; it holds until the next one entered."""

    day: date
    low_mc: int
    high_mc: int


class EnteredHeat(Protocol):
    """From and until which minute of the days that it falls on the shop is at least so warm, thousandths of a °C."""

    from_minute: int
    until_minute: int
    warm_mc: int

    def falls_on(self, day: date) -> bool: ...


class EnteredReading(Protocol):
    """What a thermometer in the shop said, in thousandths of a °C and % relative humidity."""

    at: datetime
    air_mc: int
    metal_mc: int | None
    humidity: int | None


class Entered(Protocol):
    """What was entered for a shop: days in their order, readings oldest first, products by slug."""

    @property
    def days(self) -> Sequence[EnteredDay]: ...
    @property
    def heated(self) -> Sequence[EnteredHeat]: ...
    @property
    def readings(self) -> Sequence[EnteredReading]: ...
    @property
    def products(self) -> Mapping[str, Product]: ...


@dataclass(frozen=True)
class ShopDayLine:
    """A local day as it counts: its low and high in °C, and whether they were entered for it."""

    day: date
    low: float
    high: float
    entered: bool


@dataclass(frozen=True)
class Shop:
    """A shop at a moment (aware), by the clock of its zone; `also` is heat besides what was entered.

    Minutes count from `clock.start`, the slot 0 of a plan made at `at`. `courses` are those that are worked out
    already of what was entered alone, each by its slot 0; it is added to.
    """

    entered: Entered
    at: datetime
    zone: ZoneInfo
    also: tuple[EnteredHeat, ...] = ()
    courses: dict[datetime, Temperature] = field(default_factory=dict, compare=False)

    @cached_property
    def clock(self) -> PlanClock:
        return PlanClock.from_moment(self.at, self.zone)

    @property
    def today(self) -> date:
        return self.at.astimezone(self.zone).date()

    @property
    def is_example(self) -> bool:
        """Nothing was entered yet."""
        return not self.entered.days

    @property
    def ranges(self) -> list[DayRange]:
        if self.is_example:
            return [DayRange(self.today, EXAMPLE_LOW, EXAMPLE_HIGH)]
        return [DayRange(span.day, celsius(span.low_mc), celsius(span.high_mc)) for span in self.entered.days]

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
        if self.also:
            return self._course()
        if self.clock.start not in self.courses:
            self.courses[self.clock.start] = self._course()
        return self.courses[self.clock.start]

    def _course(self) -> Temperature:
        since, until = self.at - BACK, self.at + AHEAD
        forecast = daily_temperature(
            self.ranges,
            origin=self.clock.start,
            since=since,
            until=until,
            zone=self.zone,
        )
        heats = list(self._heats(since.astimezone(self.zone).date(), until))
        told = [ShopReading(self.minute(reading.at), celsius(reading.air_mc)) for reading in self.entered.readings]
        expected = shop_temperature(forecast, heats=heats)
        return shop_temperature(forecast, heats=heats, readings=fading(told, expected)) if told else expected

    def _heats(self, first: date, until: datetime) -> Iterator[Heat]:
        for ahead in range((until.astimezone(self.zone).date() - first).days + 1):
            day = first + timedelta(days=ahead)
            for heating in chain(self.entered.heated, self.also):
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
            for reading in self.entered.readings
            if reading.humidity is not None
        ]
        return DewCourse.of(read) if read else None

    @property
    def newest(self) -> EnteredReading | None:
        return self.entered.readings[-1] if self.entered.readings else None

    def at_moment(self, moment: datetime) -> float:
        """°C that are expected at a moment within sight."""
        return self.course.at(self.minute(moment))

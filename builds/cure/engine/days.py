"""From a garage's local days to elapsed minutes, so that days of 23 and 25 hours come out right."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from builds.cure.engine.temperature import Temperature, TemperatureError
from garage.engine.presence import wall_moment

COLDEST_AT, WARMEST_AT = 3 * 60, 15 * 60  # minutes of the day, by the clock on the wall
_DAY = timedelta(days=1)
_MINUTE = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class DayRange:
    """The lowest and highest temperature (°C) in the shop on a local day, unheated."""

    day: date
    low: float
    high: float


def minutes_since(origin: datetime, moment: datetime) -> float:
    """Elapsed minutes from one aware moment to another, through every change of the clocks."""
    if origin.tzinfo is None or moment.tzinfo is None:
        raise TemperatureError("A moment needs its time zone.")
    return (moment.astimezone(UTC) - origin.astimezone(UTC)) / _MINUTE


def daily_temperature(
    ranges: Sequence[DayRange],
    *,
    origin: datetime,
    until: datetime,
    zone: ZoneInfo,
    since: datetime | None = None,
) -> Temperature:
    """Lows and highs of local days (°C), joined by half cosines, in minutes since `origin`.

    Each day's low stands at 3:00 and its high at 15:00 by the local clock, so that days alike make a
    plain sine. A day not given is like the last one given before it,
    or like the first. Covers `since` (or the origin, whichever is earlier) to `until`.
    TemperatureError for no days, a low above its high, or moments without a zone.
    Source: the sine model of the day's air, common in degree-day sums; a closed garage swings
    less and later than the air outside, so give the shop's own lows and highs.
    """
    if not ranges:
        raise TemperatureError("Give the low and the high of at least one day.")
    for given in ranges:
        if given.low > given.high:
            raise TemperatureError(f"On {given.day} the low is above the high.")
    known = sorted(ranges, key=lambda given: given.day)
    end = minutes_since(origin, until)
    begin = min(0.0, minutes_since(origin, since or origin))
    day = (origin + timedelta(minutes=begin)).astimezone(zone).date() - _DAY
    index = 0
    points: list[tuple[float, float]] = []
    while not points or points[-1][0] <= end:
        while index + 1 < len(known) and known[index + 1].day <= day:
            index += 1
        for minute, celsius in ((COLDEST_AT, known[index].low), (WARMEST_AT, known[index].high)):
            points.append((minutes_since(origin, wall_moment(day, minute, zone)), celsius))
        points.sort()
        day += _DAY
    return Temperature.through(points, smooth=True)

"""From a garage's local days to elapsed minutes, so that days of 23 and 25 hours come out right."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from builds.cure.engine.shop import Heat
from builds.cure.engine.temperature import Temperature, TemperatureError

COLDEST_AT, WARMEST_AT = time(3), time(15)
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


def moment_of(day: date, clock: time, zone: ZoneInfo, *, last: bool = False) -> datetime:
    """The aware moment at which a local clock shows a time on a day.

    A time shown twice, when the clocks go back, is the first of the two, or with `last` the
    second. A time that is skipped, when they go forward, is the moment of the skip.
    """
    shown = datetime.combine(day, clock, zone)
    early, late = (shown.replace(fold=fold).astimezone(UTC) for fold in (0, 1))
    if early <= late:
        return late if last else early
    before, after = late, early
    old = before.astimezone(zone).utcoffset()
    while after - before > timedelta(seconds=1):
        middle = before + (after - before) / 2
        if middle.astimezone(zone).utcoffset() == old:
            before = middle
        else:
            after = middle
    return after.replace(microsecond=0)


def daily_temperature(
    ranges: Sequence[DayRange],
    *,
    origin: datetime,
    until: datetime,
    zone: ZoneInfo,
    since: datetime | None = None,
    coldest_at: time = COLDEST_AT,
    warmest_at: time = WARMEST_AT,
) -> Temperature:
    """Lows and highs of local days (°C), joined by half cosines, in minutes since `origin`.

    Each day's low stands at coldest_at and its high at warmest_at by the local clock; with the
    defaults, days alike make a plain sine. A day not given is like the last one given before it,
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
    place = 0
    points: list[tuple[float, float]] = []
    while not points or points[-1][0] <= end:
        while place + 1 < len(known) and known[place + 1].day <= day:
            place += 1
        for clock, celsius in ((coldest_at, known[place].low), (warmest_at, known[place].high)):
            points.append((minutes_since(origin, moment_of(day, clock, zone)), celsius))
        points.sort()
        day += _DAY
    return Temperature.through(points, smooth=True)


def heated_hours(
    days: Sequence[date],
    *,
    opens: time,
    closes: time,
    celsius: float,
    origin: datetime,
    zone: ZoneInfo,
) -> tuple[Heat, ...]:
    """The same heated hours on each of some local days, at a floor in °C, as minutes since origin.

    When it closes no later than it opens, it closes the next day.
    """
    heats = []
    for day in days:
        closing_day = day if closes > opens else day + _DAY
        begin = minutes_since(origin, moment_of(day, opens, zone))
        end = minutes_since(origin, moment_of(closing_day, closes, zone, last=True))
        heats.append(Heat(begin, end, celsius))
    return tuple(heats)

"""Weekly hours and single days as moments, through clock changes."""

from bisect import bisect_left
from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta
from typing import NamedTuple
from zoneinfo import ZoneInfo

Minutes = tuple[int, int]  # since and until, minutes of wall clock after midnight
Window = tuple[datetime, datetime]  # start and end, aware, half-open


class DayRule(NamedTuple):
    """What differs on one day: kind `off`, `extra` or `instead`; minutes None for `off`."""

    kind: str
    since: int | None
    until: int | None


def day_stretches(weekly: Iterable[Minutes], rules: Iterable[DayRule]) -> list[Minutes]:
    """The stretches of one day, sorted: `off` and `instead` replace the week's, `extra` adds.

    Minutes of wall clock after midnight; stretches may overlap where an extra session meets
    the week's hours.
    """
    rules = list(rules)
    replaced = any(rule.kind in ("off", "instead") for rule in rules)
    stretches = [] if replaced else list(weekly)
    stretches += [(rule.since, rule.until) for rule in rules if rule.since is not None and rule.until is not None]
    return sorted(stretches)


def wall_moment(day: date, minute: int, zone: ZoneInfo) -> datetime:
    """The first moment of `day` at which the clock on the wall reads `minute` (0 to 1440) or more.

    Aware, in UTC. A minute that the clock jumps over is the moment of the jump; one that comes
    twice is its first coming. So stretches that touch on the wall touch in time, and a whole
    day is 23, 24 or 25 hours long (the zone's rules are those of zoneinfo, PEP 495 and PEP 615).
    """
    wall = datetime.combine(day, time()) + timedelta(minutes=minute)
    first = wall.replace(tzinfo=zone)
    after, before = (first.replace(fold=fold).astimezone(UTC) for fold in (0, 1))
    if before >= after:  # the minute exists; fold 0 is its first coming
        return after
    new = after.astimezone(zone).utcoffset()
    seconds = range(int((after - before).total_seconds()))
    jump = bisect_left(
        seconds,
        True,
        key=lambda second: (before + timedelta(seconds=second)).astimezone(zone).utcoffset() == new,
    )
    return before + timedelta(seconds=jump)


def merged(windows: Iterable[Window]) -> list[Window]:
    """Sorted, with windows that overlap or touch made one and empty ones dropped."""
    apart: list[Window] = []
    for start, end in sorted(windows):
        if start >= end:
            continue
        if apart and start <= apart[-1][1]:
            apart[-1] = (apart[-1][0], max(end, apart[-1][1]))
        else:
            apart.append((start, end))
    return apart


def without(windows: Iterable[Window], away: Iterable[Window]) -> list[Window]:
    """What is left of windows (apart and in order) outside the times in which somebody is away."""
    left = list(windows)
    for gone, back in away:
        cut = [(start, min(end, gone)) for start, end in left] + [(max(start, back), end) for start, end in left]
        left = merged((start, end) for start, end in cut if start < end)
    return left


def within(windows: Iterable[Window], others: Iterable[Window]) -> list[Window]:
    """What is left of windows (apart and in order) inside the others (likewise)."""
    inside = list(others)
    return merged((max(start, since), min(end, until)) for start, end in windows for since, until in inside)


def windows_between(
    weekly: dict[int, list[Minutes]],
    rules: dict[date, list[DayRule]],
    zone: ZoneInfo,
    since: datetime,
    until: datetime,
) -> list[Window]:
    """The moments between `since` and `until` (aware) in which somebody is in, in UTC.

    `weekly` maps a weekday (0 = Monday) to its stretches, `rules` a day to what differs on it.
    """
    since, until = since.astimezone(UTC), until.astimezone(UTC)
    day, last = since.astimezone(zone).date(), until.astimezone(zone).date()
    windows: list[Window] = []
    while day <= last:
        for start, end in day_stretches(weekly.get(day.weekday(), []), rules.get(day, [])):
            moments = wall_moment(day, start, zone), wall_moment(day, end, zone)
            windows.append((max(moments[0], since), min(moments[1], until)))
        day += timedelta(days=1)
    return merged(windows)

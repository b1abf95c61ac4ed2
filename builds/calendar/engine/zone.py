"""The clock changes of a time zone, as a calendar tells them (RFC 5545, 3.6.5)."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

DAY = timedelta(days=1)
MINUTE = timedelta(minutes=1)


@dataclass(frozen=True)
class Onset:
    """From when the clock is so far (`after`) from UTC: `wall` is what it read just then, `before` it changed.

    `name` is that of the new time, such as CEST; `summer` whether it is daylight saving time.
    """

    wall: datetime
    before: timedelta
    after: timedelta
    name: str
    summer: bool


def onsets(zone: ZoneInfo, since: datetime, until: datetime) -> list[Onset]:
    """What holds at `since`, then each change until `until` (both aware), to the minute."""
    at = since.astimezone(UTC).replace(second=0, microsecond=0)
    onsets = [_onset(zone, at, _offset(zone, at))]
    while at < until:
        if _state(zone, at + DAY) != _state(zone, at):
            moment = _change(zone, at)
            onsets.append(_onset(zone, moment, _offset(zone, moment - MINUTE)))
        at += DAY
    return onsets


def _offset(zone: ZoneInfo, at: datetime) -> timedelta:
    return at.astimezone(zone).utcoffset() or timedelta()


def _state(zone: ZoneInfo, at: datetime) -> tuple[timedelta, str | None]:
    return _offset(zone, at), at.astimezone(zone).tzname()


def _change(zone: ZoneInfo, since: datetime) -> datetime:
    """The first minute of the day that begins at `since` in which the zone is not what it was then."""
    low, high = 0, int(DAY / MINUTE)
    while high - low > 1:
        middle = (low + high) // 2
        if _state(zone, since + middle * MINUTE) == _state(zone, since):
            low = middle
        else:
            high = middle
    return since + high * MINUTE


def _onset(zone: ZoneInfo, moment: datetime, before: timedelta) -> Onset:
    local = moment.astimezone(zone)
    wall = (moment + before).replace(tzinfo=None)
    return Onset(wall, before, _offset(zone, moment), local.tzname() or "", bool(local.dst()))

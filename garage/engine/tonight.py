"""Today's hours: cut short or made longer, and told in words."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from garage.engine.hours import minute_words
from garage.engine.presence import Minutes, Window

USUAL_END = 22 * 60


def ended_at(stretches: Iterable[Minutes], now: int, until: int) -> list[Minutes]:
    """A day's stretches so that somebody is in until `until` and no longer.

    All in minutes of wall clock after midnight, `now` <= `until` <= 1440. What is over stays as
    it was; the stretch under way, else the next one that begins before `until`, ends at `until`;
    where there is none, one runs from now. Equal `now` and `until` send somebody home.
    """
    day = sorted(stretches)
    over = [(start, end) for start, end in day if end <= now]
    begun = [start for start, end in day if end > now and start < until]
    start = begun[0] if begun else now
    return [*over, (start, until)] if start < until else over


def usual_end(now: int) -> int:
    """What is offered as an end at minute `now`: 22:00, or at least an hour from now, by 24:00."""
    return min(1440, max(USUAL_END, -(-(now + 60) // 60) * 60))


def left_of_today(windows: list[Window], now: datetime, zone: ZoneInfo) -> list[Window]:
    """What is not over of the `windows` that begin by the end of the day, by that clock."""
    today = now.astimezone(zone).date()
    return [
        (start.astimezone(zone), end.astimezone(zone))
        for start, end in windows
        if end > now and start.astimezone(zone).date() <= today
    ]


def tonight_words(windows: list[Window], now: datetime, zone: ZoneInfo) -> str:
    """When somebody is in for what is left of today: `in until 11:30, and from 18:30 until 22:00`.

    `windows` are sorted and aware.
    """
    here, left = now.astimezone(zone), left_of_today(windows, now, zone)
    if not left:
        return "not in today"
    return "in " + ", and ".join(_stretch_words(start, end, here) for start, end in left)


def _stretch_words(start: datetime, end: datetime, here: datetime) -> str:
    """`until 22:00`, `from 18:30 until 22:00`, by the clock that all three are of."""
    ends = f"{end.hour}:{end.minute:02d}"
    if end.date() > here.date():
        midnight = end.date() - here.date() == timedelta(days=1) and not (end.hour or end.minute)
        ends = minute_words(1440) if midnight else f"{ends} tomorrow"
    return f"until {ends}" if start <= here else f"from {start.hour}:{start.minute:02d} until {ends}"

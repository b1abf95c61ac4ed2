"""Who is at an event, and what hours at home that leaves."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from garage.engine.moments import dated_words
from garage.engine.presence import Minutes, wall_moment


@dataclass(frozen=True)
class Away:
    """Somebody is at an event: from when the cars leave until the way home is over (both aware)."""

    event: str
    since: datetime
    until: datetime


def refuse_away(name: str, away: Iterable[Away], day: date, hours: Iterable[Minutes], zone: ZoneInfo) -> str | None:
    """Why hours of a day (minutes of that zone's wall) cannot be worked at home: he is at an event then."""
    times = list(away)
    for since, until in hours:
        begin, end = wall_moment(day, since, zone), wall_moment(day, until, zone)
        for trip in times:
            if trip.since < end and begin < trip.until:
                return f"{name} is at {trip.event} then, until {dated_words(trip.until, zone)}."
    return None

"""A calendar as phones read it: iCalendar (RFC 5545), with the name and the pace of asking of RFC 7986."""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event, Timezone, TimezoneDaylight, TimezoneStandard

from builds.calendar.engine.items import Item, Told
from builds.calendar.engine.zone import Onset, onsets

PRODUCT = "-//Witness Mark//Garage//EN"
ASK_EVERY = timedelta(hours=1)
ZONE_KNOWN = timedelta(days=366)


def feed_bytes(name: str, zone: ZoneInfo, since: datetime, pairs: Iterable[tuple[Item, Told]]) -> bytes:
    """The same bytes while nothing changes: no moment of asking stands in it.

    Times stand in UTC, which no clock change makes ambiguous; the garage's zone is told beside them, and keeps a
    calendar with nothing in it a valid one (RFC 5545, 3.6: at least one component).
    """
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", PRODUCT)
    calendar.add("calscale", "GREGORIAN")
    calendar.add("name", name)
    calendar.add("x-wr-calname", name)  # what phones read for a name; common practice, no source
    calendar.add("refresh-interval", ASK_EVERY, {"VALUE": "DURATION"})
    calendar.add_component(_zone(zone, since))
    for item, told in pairs:
        calendar.add_component(_event(item, told))
    return calendar.to_ical()


def _event(item: Item, told: Told) -> Event:
    event = Event()
    event.add("uid", str(told.uid))
    # Without a METHOD the stamp is the moment of the last change (RFC 5545, 3.8.7.2).
    event.add("dtstamp", told.changed_at.astimezone(UTC))
    event.add("last-modified", told.changed_at.astimezone(UTC))
    event.add("sequence", told.sequence)
    starts, ends = item.starts.astimezone(UTC), item.ends.astimezone(UTC)
    event.add("dtstart", starts.date() if item.whole_day else starts)
    if ends > starts:
        event.add("dtend", ends)
    event.add("summary", item.summary)
    for field in ("description", "location", "url"):
        value = item.place if field == "location" else getattr(item, field)
        if value:
            event.add(field, value)
    event.add("transp", "OPAQUE" if ends > starts else "TRANSPARENT")
    return event


def _zone(zone: ZoneInfo, since: datetime) -> Timezone:
    """Its changes from the begin of the year before: the same bytes all year."""
    begin = datetime(since.astimezone(zone).year - 1, 1, 1, tzinfo=UTC)
    told = Timezone()
    told.add("tzid", zone.key)
    for onset in onsets(zone, begin, begin + 3 * ZONE_KNOWN):
        told.add_component(_onset(onset))
    return told


def _onset(onset: Onset) -> TimezoneDaylight | TimezoneStandard:
    part = TimezoneDaylight() if onset.summer else TimezoneStandard()
    part.add("dtstart", onset.wall)
    part.add("tzname", onset.name)
    part.add("tzoffsetfrom", onset.before)
    part.add("tzoffsetto", onset.after)
    return part

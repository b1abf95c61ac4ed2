"""When the members of a garage are in and its stations open, as moments."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Prefetch

from garage.engine.away import Away, refuse_away
from garage.engine.presence import DayRule, Minutes, Window, day_stretches, windows_between, without
from garage.models import DayHours, Event, Garage, Membership
from garage.models.hours import WeeklyHours


def local_minute(garage: Garage, at: datetime) -> tuple[date, int]:
    """The day and the minute on the garage's wall clock."""
    here = at.astimezone(ZoneInfo(garage.time_zone))
    return here.date(), here.hour * 60 + here.minute


def week_of(rows: Iterable[WeeklyHours]) -> dict[int, list[Minutes]]:
    week: dict[int, list[Minutes]] = defaultdict(list)
    for hours in rows:
        week[hours.weekday].append((hours.from_minute, hours.until_minute))
    return week


def rules_of(rows: Iterable[DayHours]) -> dict[date, list[DayRule]]:
    days: dict[date, list[DayRule]] = defaultdict(list)
    for rule in rows:
        days[rule.day].append(DayRule(rule.kind, rule.from_minute, rule.until_minute))
    return days


def stretches_on(member: Membership, day: date) -> list[Minutes]:
    """A member's hours of one day on the wall's clock, exceptions counted."""
    week = week_of(member.weekly_hours.all()).get(day.weekday(), [])
    rules = rules_of(DayHours.objects.of(member).between(day, day)).get(day, [])
    return day_stretches(week, rules)


def events_of(since: datetime) -> Prefetch:
    """For memberships, the events they go to and are not back from at a moment."""
    return Prefetch("events", Event.objects.not_back(since).order_by("gates_at", "pk"))


def away_of(member: Membership) -> list[Away]:
    """When a member is at an event; one query unless `events_of` was prefetched."""
    return [Away(event.name, event.due_at, event.back_at) for event in member.events.all()]


def away_at(member: Membership, at: datetime) -> Away | None:
    """The event at which he is at a moment; as `away_of`."""
    return next((away for away in away_of(member) if away.since <= at < away.until), None)


def refuse_meanwhile(member: Membership, day: date, hours: Iterable[Minutes]) -> str | None:
    """Why hours of a day (minutes of the wall) cannot be worked at home, if they cannot; as `away_of`."""
    return refuse_away(member.name, away_of(member), day, hours, ZoneInfo(member.garage.time_zone))


def hours_of(member: Membership, zone: ZoneInfo, since: datetime, until: datetime) -> list[Window]:
    """When a member is in: his hours, but for when he is at an event.

    No query where `weekly_hours`, `day_hours` of these days and `events_of` are prefetched.
    """
    hours = windows_between(week_of(member.weekly_hours.all()), rules_of(member.day_hours.all()), zone, since, until)
    return without(hours, ((away.since, away.until) for away in away_of(member)))


def member_windows(garage: Garage, since: datetime, until: datetime) -> dict[int, list[Window]]:
    """Every member still here, by its pk, whether or not he counts as a pair of hands."""
    zone, day = ZoneInfo(garage.time_zone), timedelta(days=1)
    days = DayHours.objects.between(since.astimezone(zone).date() - day, until.astimezone(zone).date() + day)
    members = (
        Membership.objects.in_garage(garage)
        .active()
        .prefetch_related("weekly_hours", Prefetch("day_hours", days), events_of(since))
    )
    return {member.pk: hours_of(member, zone, since, until) for member in members}

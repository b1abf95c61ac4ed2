"""When the members of a garage are in and its stations open, as moments."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Exists, OuterRef, Prefetch

from garage.engine.away import Away, refuse_away
from garage.engine.presence import DayRule, Minutes, Window, day_stretches, merged, windows_between, within, without
from garage.models import DayHours, Event, Garage, Membership, VisitLink
from garage.models.hours import WeeklyHours
from garage.remembered import remembered

DAY, HORIZON = timedelta(days=1), timedelta(days=180)


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


def is_visitor(member: Membership) -> bool:
    """Somebody who said by a link on which days he comes: he has no account and no week of his own.

    No query of `members_from`.
    """
    return member.came_by_link and not member.person.email and not member.weekly_hours.all()


def hosts_of(members: Iterable[Membership]) -> list[Membership]:
    """Of `members_from` those who are at home in the garage: no visitor works there unless one of them is in."""
    return [member for member in members if not is_visitor(member)]


def working_hours_of(
    member: Membership, hosts: Iterable[Membership], zone: ZoneInfo, since: datetime, until: datetime
) -> list[Window]:
    """When a member is in and may be planned: a visitor while one of the `hosts` is in. As `hours_of`."""
    hours = hours_of(member, zone, since, until)
    return in_company(hours, hosts, zone) if is_visitor(member) else hours


def in_company(hours: list[Window], hosts: Iterable[Membership], zone: ZoneInfo) -> list[Window]:
    """What of these hours (apart and in order) one of the `hosts` is in as well; as `hours_of`."""
    if not hours:
        return []
    span = zone, hours[0][0], hours[-1][1]
    return within(hours, merged(window for host in hosts for window in hours_of(host, *span)))


def members_from(garage: Garage, at: datetime) -> list[Membership]:
    """Those still here, with skills, cars, and all hours and events that count from the morning of that day on until
    `HORIZON` later; six queries, none where they are remembered: they are the same all day.
    """
    morning = at.astimezone(ZoneInfo(garage.time_zone)).replace(hour=0, minute=0, second=0, microsecond=0)
    return remembered(garage, ("members", morning), lambda: _members(garage, morning))


def _members(garage: Garage, morning: datetime) -> list[Membership]:
    days = DayHours.objects.between(morning.date() - DAY, (morning + HORIZON).date() + 2 * DAY)
    answered = VisitLink.objects.filter(member=OuterRef("pk")).exclude(parent=None)
    rows = Membership.objects.in_garage(garage).active().annotate(came_by_link=Exists(answered))
    rows = rows.select_related("person")
    hours = ("weekly_hours", Prefetch("day_hours", days), events_of(morning))
    return list(rows.prefetch_related("skills", "cars", *hours))


def member_windows(garage: Garage, since: datetime, until: datetime) -> dict[int, list[Window]]:
    """Every member still here, by its pk, whether or not he counts as a pair of hands; until `HORIZON` at most."""
    zone = ZoneInfo(garage.time_zone)
    return {member.pk: hours_of(member, zone, since, until) for member in members_from(garage, since)}

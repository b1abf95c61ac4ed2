"""When the members of a garage are in and its stations open, as moments."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Prefetch

from garage.engine.presence import DayRule, Minutes, Window, day_stretches, windows_between
from garage.models import DayHours, Garage, Membership
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


def member_windows(garage: Garage, since: datetime, until: datetime) -> dict[int, list[Window]]:
    """Every member still here, by its pk, whether or not he counts as a pair of hands."""
    zone, day = ZoneInfo(garage.time_zone), timedelta(days=1)
    days = DayHours.objects.between(since.astimezone(zone).date() - day, until.astimezone(zone).date() + day)
    members = (
        Membership.objects.in_garage(garage).active().prefetch_related("weekly_hours", Prefetch("day_hours", days))
    )
    return {
        member.pk: windows_between(
            week_of(member.weekly_hours.all()), rules_of(member.day_hours.all()), zone, since, until
        )
        for member in members
    }

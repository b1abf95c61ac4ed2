"""Everybody still here, and when they are in today and tomorrow."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Prefetch

from garage.engine.presence import Window, windows_between
from garage.facts.presence import rules_of, week_of
from garage.models import DayHours, Membership


def members_of(me: Membership, at: datetime) -> list[Membership]:
    """With hours and skills; four queries."""
    today = at.astimezone(ZoneInfo(me.garage.time_zone)).date()
    days = DayHours.objects.between(today - timedelta(days=1), today + timedelta(days=3))
    return list(
        Membership.objects.visible_to(me)
        .active()
        .select_related("person")
        .prefetch_related("skills", "weekly_hours", Prefetch("day_hours", days))
    )


def hours_ahead(member: Membership, zone: ZoneInfo, at: datetime) -> list[Window]:
    """Of two days, for a member of `members_of`; no query."""
    return windows_between(
        week_of(member.weekly_hours.all()),
        rules_of(member.day_hours.all()),
        zone,
        at,
        at + timedelta(days=2),
    )

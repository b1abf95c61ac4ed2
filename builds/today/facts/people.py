"""Everybody still here, and when they are in today and tomorrow."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Prefetch

from garage.engine.presence import Window
from garage.facts.presence import events_of, hours_of
from garage.models import DayHours, Membership


def members_of(me: Membership, at: datetime) -> list[Membership]:
    """With hours, skills and the events they go to; five queries."""
    today = at.astimezone(ZoneInfo(me.garage.time_zone)).date()
    days = DayHours.objects.between(today - timedelta(days=1), today + timedelta(days=3))
    return list(
        Membership.objects.visible_to(me)
        .active()
        .select_related("person")
        .prefetch_related("skills", "weekly_hours", Prefetch("day_hours", days), events_of(at))
    )


def hours_ahead(member: Membership, zone: ZoneInfo, at: datetime) -> list[Window]:
    """Of two days, for a member of `members_of`; no query."""
    return hours_of(member, zone, at, at + timedelta(days=2))

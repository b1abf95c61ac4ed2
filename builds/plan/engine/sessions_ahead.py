"""When the next sessions begin, and how long a plan stands before the clock alone leaves it behind."""

from collections.abc import Iterable
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from builds.plan.engine.timed_plan import TimedPlan
from garage.engine.presence import Window, merged

LATE_START = timedelta(minutes=30)  # work that begins so much later than planned is not behind it yet
NIGHT_ENDS = time(4)  # an evening in the garage is over by then


def morning_after(at: datetime, zone: ZoneInfo) -> datetime:
    """The first moment after `at` (aware) at which the clock on the wall reads the end of the night."""
    local = at.astimezone(zone)
    morning = datetime.combine(local.date(), NIGHT_ENDS, zone)
    return morning if morning > at else datetime.combine(local.date() + timedelta(days=1), NIGHT_ENDS, zone)


def sessions_ahead(windows: Iterable[Window], at: datetime, zone: ZoneInfo) -> list[datetime]:
    """The moments after `at` (aware) at which somebody comes into an empty garage.

    `windows` are those in which people are in, whoever it is. Where somebody is in all night the next
    morning counts as well: else a garage that is never empty would have no session.
    """
    present = merged(windows)
    morning = morning_after(at, zone)
    nights = [morning] if any(since < morning < until for since, until in present) else []
    return sorted([*nights, *(since for since, _ in present if since > at)])


def stands_until(plan: TimedPlan, dues: Iterable[datetime], at: datetime) -> datetime:
    """From when a plan made at `at` (aware) is behind unless something happens that is written down.

    That is when work should have begun a good while ago, or should be over; when a car must leave (`dues`),
    for then it has another event ahead; and in the morning at the latest.
    """
    moments = [morning_after(at, plan.clock.zone), *(due for due in dues if due > at)]
    for placed in plan.placed.values():
        start, end = plan.clock.moment(placed.start), plan.clock.moment(placed.end)
        moments.append(end if plan.jobs[placed.id].started else min(start + LATE_START, end))
    return min(moment for moment in moments if moment > at)

"""What a calendar is made from: who is in when, the plan, the work, what is ordered, events."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from builds.plan.engine.sessions import Session, sessions
from builds.plan.facts.stored import Stored
from builds.work.engine.open_work import Work
from builds.work.models.need import Need
from garage.engine.presence import Window
from garage.facts.presence import member_windows, members_from
from garage.models import Event, Garage, Membership

BEHIND, AHEAD = timedelta(days=1), timedelta(days=28)


@dataclass(frozen=True)
class CalendarFacts:
    """`members` are all who are here still, `windows` are when they are in; `sessions` are those of the `plan`.

    From `since`, the begin of yesterday in the garage's `zone`: an evening does not shrink while it runs. `today`
    is when the day of `at` began there.
    """

    garage: Garage
    zone: ZoneInfo
    at: datetime
    since: datetime
    today: datetime
    work: Work
    plan: Stored | None
    sessions: tuple[Session, ...]
    members: list[Membership]
    windows: dict[int, list[Window]]
    ordered: tuple[Need, ...]
    events: tuple[Event, ...]

    @property
    def hands(self) -> dict[int, Membership]:
        """Those who count in the plan, by pk."""
        return {member.pk: member for member in self.members if member.works}


def calendar_facts(work: Work, plan: Stored | None) -> CalendarFacts:
    """Of a garage with its work and the plan on its wall; a fixed number of queries."""
    garage, at = work.garage, work.at
    zone = ZoneInfo(garage.time_zone)
    today = at.astimezone(zone).replace(hour=0, minute=0, second=0, microsecond=0, fold=0)
    since = today - BEHIND
    return CalendarFacts(
        garage,
        zone,
        at,
        since,
        today,
        work,
        plan,
        tuple(sessions(plan)) if plan else (),
        members_from(garage, since),
        member_windows(garage, since, at + AHEAD),
        tuple(Need.objects.in_garage(garage).open().exclude(expected_on=None).with_ends()),
        tuple(Event.objects.in_garage(garage).not_back(since).prefetch_related("entries__vehicle")),
    )

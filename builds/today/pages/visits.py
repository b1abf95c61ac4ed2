"""Who said by a link that he can come: what waits for the owner's yes, and what counts since yesterday."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from garage.access import refuse_arranging
from garage.engine.hours import minute_words
from garage.engine.moments import day_words
from garage.engine.presence import wall_moment
from garage.facts.presence import hosts_of, in_company, is_visitor
from garage.models import Membership, Visit

LATELY = timedelta(days=1)


@dataclass(frozen=True)
class VisitSaid:
    """`link` (pk) is whose it is; `who` said it, `when` lists the days with their hours, `alone` those of them on which
    nobody else would be in."""

    link: int
    who: str
    when: tuple[str, ...]
    waits: bool
    alone: tuple[str, ...] = ()


def visits_said(me: Membership, members: list[Membership], at: datetime, today: date) -> tuple[VisitSaid, ...]:
    """For the owner alone, one query. `members` are all of the garage, with hours. What waits comes first."""
    if refuse_arranging(me):
        return ()
    rows = Visit.objects.visible_to(me).ahead(today).select_related("link__member__person", "link__parent")
    by_link: dict[tuple[bool, int], list[Visit]] = {}
    home = {member.pk for member in members if not is_visitor(member)}
    zone, hosts = ZoneInfo(me.garage.time_zone), hosts_of(members)

    def is_alone(visit: Visit) -> bool:
        hours = wall_moment(visit.day, visit.from_minute, zone), wall_moment(visit.day, visit.until_minute, zone)
        comes = visit.state in (Visit.State.WAITING, Visit.State.TAKEN) and visit.link.member_id not in home
        return comes and not in_company([hours], hosts, zone)

    for visit in rows:
        if visit.waits or (visit.settled and visit.said_at > at - LATELY):
            by_link.setdefault((visit.settled, visit.link_id), []).append(visit)
    return tuple(
        VisitSaid(
            link, rows[0].link.who, tuple(map(_when, rows)), not settled, tuple(map(_when, filter(is_alone, rows)))
        )
        for (settled, link), rows in sorted(by_link.items())
    )


def _when(visit: Visit) -> str:
    hours = f"{day_words(visit.day)} {minute_words(visit.from_minute)}–{minute_words(visit.until_minute)}"
    return f"not {hours}" if visit.state == Visit.State.WITHDRAWN else hours

"""Who said by a link that he can come: what waits for the owner's yes, and what counts since yesterday."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from garage.access import refuse_arranging
from garage.engine.hours import minute_words
from garage.engine.moments import day_words
from garage.models import Membership, Visit

LATELY = timedelta(days=1)


@dataclass(frozen=True)
class VisitSaid:
    """`link` (pk) is whose it is; `who` said it, `when` lists the days with their hours."""

    link: int
    who: str
    when: tuple[str, ...]
    waits: bool


def visits_said(me: Membership, at: datetime, today: date) -> tuple[VisitSaid, ...]:
    """For the owner alone; one query. What waits comes first."""
    if refuse_arranging(me):
        return ()
    rows = Visit.objects.visible_to(me).ahead(today).select_related("link__member__person", "link__parent")
    by_link: dict[tuple[bool, int], list[Visit]] = {}
    for visit in rows:
        if visit.waits or (visit.settled and visit.said_at > at - LATELY):
            by_link.setdefault((visit.settled, visit.link_id), []).append(visit)
    return tuple(
        VisitSaid(link, rows[0].link.who, tuple(map(_when, rows)), not settled)
        for (settled, link), rows in sorted(by_link.items())
    )


def _when(visit: Visit) -> str:
    hours = f"{day_words(visit.day)} {minute_words(visit.from_minute)}–{minute_words(visit.until_minute)}"
    return f"not {hours}" if visit.state == Visit.State.WITHDRAWN else hours

"""The page of somebody who comes: his evenings, and in each of them his jobs or why there are none."""

from dataclasses import dataclass
from datetime import datetime

from builds.calendar.facts import CalendarFacts, calendar_facts
from builds.calendar.pages import stints_in
from builds.plan.facts.stored import shown
from builds.today.pages.idle import idle_words
from builds.work.facts.work import load_work
from garage.engine.hours import minute_words
from garage.engine.moments import clock_words, day_words
from garage.engine.presence import Window, wall_moment
from garage.facts.presence import hosts_of, in_company, is_visitor
from garage.models import Visit, VisitLink

ANSWERED = {
    Visit.State.WAITING: "The owner has not answered yet.",
    Visit.State.TAKEN: "The owner said yes: you are in the plan.",
    Visit.State.REFUSED: "Not this time, says the garage.",
    Visit.State.WITHDRAWN: "You cannot come after all.",
}
IN_PLAN = "You are in the plan."


@dataclass(frozen=True)
class Evening:
    """A day on which he said he can come; `jobs` are lines such as `19:15 “Bleed the brakes”, Heron`.

    `answer` is the garage's; where there is no job, `reason` says why. `stands` while he can still say
    that he does not come.
    """

    pk: int
    day: str
    hours: str
    answer: str
    jobs: tuple[str, ...]
    reason: str
    stands: bool


def evenings_of(link: VisitLink, at: datetime) -> list[Evening]:
    """What he said of today and later; a fixed number of queries."""
    facts = calendar_facts(load_work(link.garage, at), shown(link.garage))
    visits = list(link.visits.ahead(at.astimezone(facts.zone).date()))
    return [_evening(link, visit, facts) for visit in visits]


def _evening(link: VisitLink, visit: Visit, facts: CalendarFacts) -> Evening:
    hours = tuple(wall_moment(visit.day, minute, facts.zone) for minute in (visit.from_minute, visit.until_minute))
    jobs: tuple[str, ...] = ()
    reason = ""
    if visit.state == Visit.State.TAKEN and link.member:
        jobs = tuple(
            f"{clock_words(max(stint.starts, hours[0]), hours[0], facts.zone)} “{stint.job.title}”,"
            f" {stint.job.vehicle.name}"
            for stint in stints_in(facts, {link.member.pk}, hours)
        )
        reason = "" if jobs else _why(link, hours, facts)
    return Evening(
        visit.pk,
        day_words(visit.day),
        f"{minute_words(visit.from_minute)}–{minute_words(visit.until_minute)}",
        ANSWERED[Visit.State(visit.state)] if link.parent_id or visit.state != Visit.State.TAKEN else IN_PLAN,
        jobs,
        reason,
        visit.state in (Visit.State.WAITING, Visit.State.TAKEN),
    )


def _why(link: VisitLink, hours: tuple[datetime, ...], facts: CalendarFacts) -> str:
    if hours[1] <= facts.at:
        return "That is over."
    if _alone(link, (hours[0], hours[1]), facts):
        return "Nobody of the garage is in then: you get jobs once somebody is."
    return idle_words(link.member, facts.work, facts.plan, has_hours=True, many=len(facts.hands))


def _alone(link: VisitLink, hours: Window, facts: CalendarFacts) -> bool:
    """Whether he would be there with nobody who is at home in the garage."""
    visitors = {member.pk for member in facts.members if is_visitor(member)}
    return link.member_id in visitors and not in_company([hours], hosts_of(facts.members), facts.zone)

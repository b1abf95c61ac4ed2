"""What is next for each person tonight: from the plan on the wall, else by urgency."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Prefetch

from builds.cure.facts.plan_clock import name_of, pk_of
from builds.plan.facts.stored import Stored
from builds.steps.pages.job_cards import card_of
from builds.work.facts.work import Work
from builds.work.models.job import Job
from builds.work.models.states import State
from builds.work.pages import JobCard
from garage.access import refuse_hours
from garage.clock import clock_words
from garage.engine.presence import Window, windows_between
from garage.engine.tonight import tonight_words
from garage.facts.presence import rules_of, week_of
from garage.models import DayHours, Membership
from garage.pages.people import suggested_end

MOST_THEN = 4
BEGINNABLE = (State.OPEN, State.WAITING)


@dataclass(frozen=True)
class Then:
    """A job after the next one, with the time the plan has for it."""

    when: str
    title: str
    url: str


@dataclass(frozen=True)
class NextJob:
    """A job that somebody takes up next: its card, who is on it, why it cannot begin yet."""

    card: JobCard
    crew: tuple[int, ...]
    when: str = ""


@dataclass(frozen=True)
class PersonToday:
    """`until` is the end that is offered when the hours may be set by whoever asks."""

    pk: int
    name: str
    is_me: bool
    tonight: str
    is_in: bool
    in_hand: tuple[JobCard, ...]
    next: NextJob | None
    then: tuple[Then, ...]
    until: str


def members_of(me: Membership, at: datetime) -> list[Membership]:
    """Everybody still here, with hours and skills; four queries."""
    today = at.astimezone(ZoneInfo(me.garage.time_zone)).date()
    days = DayHours.objects.between(today - timedelta(days=1), today + timedelta(days=3))
    return list(
        Membership.objects.visible_to(me)
        .active()
        .select_related("person")
        .prefetch_related("skills", "weekly_hours", Prefetch("day_hours", days))
    )


def hours_ahead(member: Membership, zone: ZoneInfo, at: datetime) -> list[Window]:
    return windows_between(
        week_of(member.weekly_hours.all()),
        rules_of(member.day_hours.all()),
        zone,
        at,
        at + timedelta(days=2),
    )


def people_today(me: Membership, members: list[Membership], work: Work, plan: Stored | None) -> list[PersonToday]:
    """Those who count as hands: me first, then who is in, then who is not."""
    zone, at = ZoneInfo(me.garage.time_zone), work.at
    given: set[int] = set()
    found = []
    for member in sorted(
        (each for each in members if each.works),
        key=lambda each: (each.pk != me.pk, not hours_ahead(each, zone, at), each.pk),
    ):
        windows = hours_ahead(member, zone, at)
        words = tonight_words(windows, at, zone)
        ours = refuse_hours(me, member) is None
        turns = list(_turns(member, work, plan, given))
        first = next((turn for turn in turns if not work.blocks(turn.card.pk)), None)
        first = first or (turns[0] if turns else None)
        if first:
            given.add(first.card.pk)
        found.append(
            PersonToday(
                pk=member.pk,
                name=member.name,
                is_me=member.pk == me.pk,
                tonight=words,
                is_in=words.startswith("in"),
                in_hand=_in_hand(member, work),
                next=first,
                then=tuple(_then(turns, first)),
                until=suggested_end(me.garage, at) if ours else "",
            )
        )
    return sorted(found, key=lambda person: (not person.is_me, not person.is_in))


def _in_hand(member: Membership, work: Work) -> tuple[JobCard, ...]:
    return tuple(
        card_of(job, work, steps=True)
        for pk, job in work.jobs.items()
        if job.state == State.IN_HAND and member in work.crew(pk)
    )


def _turns(member: Membership, work: Work, plan: Stored | None, given: set[int]) -> Iterator[NextJob]:
    if plan is not None and plan.placed:
        yield from _planned(member, work, plan)
        return
    known = {skill.pk for skill in member.skills.all()}
    for pk in work.order:
        job = work.jobs[pk]
        able = job.skill_id is None or job.skill_id in known
        if job.state in BEGINNABLE and job.hands and able and pk not in given:
            yield NextJob(card_of(job, work, steps=True, lead="next"), (member.pk,))


def _planned(member: Membership, work: Work, plan: Stored) -> Iterator[NextJob]:
    """His rows of the plan that can still be begun, in their order."""
    name = name_of("person", member.pk)
    rows = (row for row in plan.placed.values() if name in row.people)
    for row in sorted(rows, key=lambda row: (row.start, row.id)):
        job = work.jobs.get(pk_of(row.id))
        if job is None or job.state not in BEGINNABLE:
            continue
        start = plan.clock.moment(row.start)
        when = clock_words(start, work.at) if start > work.at else ""
        lead = f"next, {when}" if when else "next"
        crew = tuple(pk_of(person) for person in row.people)
        yield NextJob(card_of(job, work, steps=True, lead=lead), crew, when)


def _then(turns: list[NextJob], first: NextJob | None) -> Iterator[Then]:
    rest = [turn for turn in turns if turn is not first][:MOST_THEN]
    for turn in rest:
        yield Then(turn.when, turn.card.title, turn.card.url)


def unplanned(work: Work, plan: Stored | None) -> list[Job]:
    """Open jobs that the plan on the wall does not know."""
    if plan is None:
        return []
    return [job for pk, job in work.jobs.items() if name_of("job", pk) not in plan.jobs]

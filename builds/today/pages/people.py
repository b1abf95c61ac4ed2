"""What is next for each person tonight: from the plan on the wall, else by urgency."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from builds.plan.engine.ids import id_of, pk_of
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.pages.not_yet import not_yet
from builds.steps.pages.job_cards import card_of, offered_to
from builds.today.facts.evening import night_of
from builds.today.pages.idle import idle_words
from builds.work.engine.open_work import Work
from builds.work.engine.room_now import RoomNow
from builds.work.models.states import BEGINNABLE, State
from builds.work.pages import JobCard
from garage.access import refuse_hours, refuse_presence, refuse_work_on
from garage.clock import clock_words
from garage.facts.presence import away_at, hours_of
from garage.models import Membership
from garage.pages.people import suggested_end, whereabouts

MOST_THEN = 4
AHEAD = timedelta(days=2)


@dataclass(frozen=True)
class Then:
    """A job after the next one, with the time the plan has for it."""

    when: str
    title: str
    url: str


@dataclass(frozen=True)
class NextJob:
    """A job that somebody takes up next: its card, who (pk) is on it, and when by the plan, in words and as it is."""

    card: JobCard
    crew: tuple[int, ...]
    when: str = ""
    start: datetime | None = None


@dataclass(frozen=True)
class PersonToday:
    """`until` is the end that is offered when the hours may be set by whoever asks.

    `tonight` is empty, and nobody `is_in` or `at_event`, for a reader who may not see when somebody is in.
    Whoever is `at_event` is not at home, and has nothing to do there. `put_down` is what he had in hand
    until somebody else put it down. `idle` says why nothing is next, if nothing is.
    """

    pk: int
    name: str
    is_me: bool
    tonight: str
    is_in: bool
    at_event: bool
    in_hand: tuple[JobCard, ...]
    put_down: tuple[JobCard, ...]
    next: NextJob | None
    then: tuple[Then, ...]
    until: str
    idle: str


def people_today(
    me: Membership, members: list[Membership], work: Work, plan: TimedPlan | None, room: RoomNow
) -> list[PersonToday]:
    """Those who count as hands: me first, then who is in, then who is not.

    Without a plan each takes what the one before has not been given. `members` as `members_from`.
    """
    zone, at, told = ZoneInfo(me.garage.time_zone), work.at, refuse_presence(me) is None
    night = night_of(me.garage, at)
    hours = {member.pk: hours_of(member, zone, at, at + AHEAD) for member in members if member.works}
    hands = [member for member in members if member.works]
    hands.sort(key=lambda member: (member.pk != me.pk, told and not hours[member.pk], member.pk))
    given: set[int] = set()
    people = []
    for member in hands:
        gone = told and away_at(member, at) is not None
        free = [pk for pk in work.order if pk not in given and 0 < work.jobs[pk].hands <= len(hands)]
        turns = [] if gone else _shown(_turns(member, work, plan, free, room), night)
        first = _first(turns)
        if first:
            given.add(first.card.pk)
        in_hand = _in_hand(member, work, room)
        idles = told and not (first or gone or in_hand)
        tonight = whereabouts(member, hours[member.pk], at, zone) if told else ""
        people.append(
            PersonToday(
                pk=member.pk,
                name=member.name,
                is_me=member.pk == me.pk,
                tonight=tonight,
                is_in=tonight.startswith("in"),
                at_event=gone,
                in_hand=tuple(offered_to(me, card, work) for card in in_hand),
                put_down=tuple(_put_down(member, work, first)),
                next=first and replace(first, card=offered_to(me, first.card, work)),
                then=tuple(_then(turns, first, night)),
                until="" if gone or refuse_hours(me, member) else suggested_end(me.garage, at),
                idle=idle_words(member, work, plan, bool(hours[member.pk]), len(hands)) if idles else "",
            )
        )
    return sorted(people, key=lambda person: (not person.is_me, not person.is_in))


def _turns(member: Membership, work: Work, plan: TimedPlan | None, free: list[int], room: RoomNow) -> Iterator[NextJob]:
    """Without a plan, of those (pk) that are `free` for him. A plan that found no place for anything offers nothing."""
    return _by_plan(member, work, plan, room) if plan else _by_urgency(member, work, free, room)


def _shown(turns: Iterator[NextJob], night: datetime) -> list[NextJob]:
    """All of this evening, or as many as are told of, and on to the first that can be begun now."""
    shown: list[NextJob] = []
    free = False
    for turn in turns:
        shown.append(turn)
        free = free or bool(turn.card.steps)
        if free and len(shown) > MOST_THEN and not (turn.start and turn.start < night):
            break
    return shown


def _first(turns: list[NextJob]) -> NextJob | None:
    """The first that can be begun now; where none can, the first of all."""
    free = (turn for turn in turns if turn.card.steps)
    return next(free, turns[0] if turns else None)


def _in_hand(member: Membership, work: Work, room: RoomNow) -> tuple[JobCard, ...]:
    stops = room.stops()
    return tuple(
        card_of(job, work, steps=True, stop=stops.get(pk, ""))
        for pk, job in work.jobs.items()
        if job.state == State.IN_HAND and member in work.crew(pk)
    )


def _put_down(member: Membership, work: Work, first: NextJob | None) -> Iterator[JobCard]:
    """With who did it, where the card of what is next does not say so."""
    for pk, job in work.jobs.items():
        spans, told = work.spans[pk], first is not None and (first.card.pk, first.card.note) == (pk, job.state_note)
        if job.state == State.WAITING and job.state_note and not told and spans and member in spans[-1].people:
            yield replace(card_of(job, work), note=job.state_note)


def _by_urgency(member: Membership, work: Work, free: list[int], room: RoomNow) -> Iterator[NextJob]:
    known, first = {skill.pk for skill in member.skills.all()}, True
    for pk in free:
        job = work.jobs[pk]
        able = job.skill_id is None or job.skill_id in known
        if job.state in BEGINNABLE and able and refuse_work_on(member, job.vehicle) is None:
            clash = room.clash(job, {member.pk})
            yield NextJob(card_of(job, work, steps=True, lead=_lead(first), clash=clash), (member.pk,))
            first = False


def _by_plan(member: Membership, work: Work, plan: TimedPlan, room: RoomNow) -> Iterator[NextJob]:
    """What the plan has for him that can still be begun, in its order."""
    me, first = id_of("person", member.pk), True
    mine = [placed for placed in plan.placed.values() if me in placed.people]
    for placed in sorted(mine, key=lambda placed: (placed.start, placed.id)):
        job = work.jobs.get(pk_of(placed.id))
        if job is None or job.state not in BEGINNABLE:
            continue
        start = plan.clock.moment(placed.start)
        when = clock_words(start, work.at) if start > work.at else ""
        crew = tuple(map(pk_of, placed.people))
        clash = room.clash(job, crew) or not_yet(plan, placed.id, work.at)
        yield NextJob(card_of(job, work, steps=True, lead=_lead(first, when), clash=clash), crew, when, start)
        first = False


def _lead(first: bool, when: str = "") -> str:
    """`next, 18:00`; of work that can be begun while what is next cannot, `can start now (planned Wed 20:45)`."""
    if first:
        return f"next, {when}" if when else "next"
    return f"can start now (planned {when})" if when else "can start now"


def _then(turns: list[NextJob], first: NextJob | None, night: datetime) -> Iterator[Then]:
    """All that this evening has for him, as the plan has it; where that is nothing more, some of what comes later."""
    rest = [turn for turn in turns if turn is not first]
    tonight = [turn for turn in rest if turn.start and turn.start < night]
    for turn in tonight or rest[:MOST_THEN]:
        yield Then(turn.when, turn.card.title, turn.card.url)

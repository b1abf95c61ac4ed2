"""Who is to do what this evening: what is in hand, then what the plan has until the morning."""

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from builds.plan.engine.ids import pk_of
from builds.plan.engine.sessions import sessions
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.stored import shown
from builds.today.facts.asked import Asked
from builds.work.engine.open_work import Work
from builds.work.models.states import State
from garage.facts.presence import member_windows
from garage.models import Garage

NIGHT_ENDS = time(4)  # an evening in the garage is over by then
DAY, MINUTE = timedelta(days=1), timedelta(minutes=1)


@dataclass(frozen=True)
class Turn:
    """A job (pk) of this evening; `people` (pk) are on it, nobody where no plan says who.

    `start` and `end` are of its part this evening, None where no plan says when.
    """

    job: int
    people: tuple[int, ...]
    start: datetime | None = None
    end: datetime | None = None


def evening_of(garage: Garage, at: datetime) -> date:
    """The day whose evening it is: past midnight still the day before, while somebody is in."""
    local = at.astimezone(ZoneInfo(garage.time_zone))
    late = local.time() < NIGHT_ENDS and any(member_windows(garage, at, at + MINUTE).values())
    return local.date() - DAY if late else local.date()


def night_of(garage: Garage, at: datetime) -> datetime:
    """When the evening of this moment is over."""
    return night_after(evening_of(garage, at), ZoneInfo(garage.time_zone))


def night_after(evening: date, zone: ZoneInfo) -> datetime:
    """When it is over."""
    return datetime.combine(evening + DAY, NIGHT_ENDS, zone)


def turns_of(garage: Garage, work: Work, asked: Asked) -> list[Turn]:
    """Each job once, in the order in which it is taken up; of an event all that is open."""
    if asked.job:
        return [Turn(asked.job.pk, ())] if asked.job.pk in work.jobs else []
    if asked.event:
        cars = {entry.vehicle_id for entry in asked.event.entries.coming()}
        return [Turn(pk, ()) for pk in work.order if work.jobs[pk].vehicle_id in cars]
    turns = tonight(work, shown(garage), night_of(garage, work.at))
    if asked.person is None:
        return turns
    return [turn for turn in turns if not turn.people or asked.person.pk in turn.people]


def tonight(work: Work, plan: TimedPlan | None, night: datetime) -> list[Turn]:
    """Until the evening is over (`night`); without a plan, what can be begun and nobody in particular has."""
    in_hand = {
        pk: Turn(pk, tuple(member.pk for member in work.crew(pk)))
        for pk in work.order
        if work.jobs[pk].state == State.IN_HAND
    }
    if plan is None:
        free = (pk for pk in work.order if pk not in in_hand and not work.blocks(pk))
        return [*in_hand.values(), *(Turn(pk, ()) for pk in free)]
    planned = _planned(plan, work, night)
    return [*in_hand.values(), *(turn for pk, turn in planned.items() if pk not in in_hand)]


def _planned(plan: TimedPlan, work: Work, night: datetime) -> dict[int, Turn]:
    turns: dict[int, Turn] = {}
    for session in sessions(plan):
        pk = pk_of(session.job)
        start, end = plan.clock.moment(session.start), plan.clock.moment(session.end)
        if pk in work.jobs and start < night and end > work.at:
            turns.setdefault(pk, Turn(pk, tuple(map(pk_of, session.people)), start, end))
    return turns

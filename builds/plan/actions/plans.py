"""Making a plan of the garage, and putting it on the wall."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db import transaction

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.ids import is_fact
from builds.plan.engine.instead_of import instead_of
from builds.plan.engine.packed import answer_table, packed, unpacked
from builds.plan.engine.sessions_ahead import stands_until
from builds.plan.engine.stored import Stored
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.problem import build_problem
from builds.plan.models import Plan
from builds.planner.again import planned_in_order, worth
from builds.planner.check import faults, score
from builds.planner.plan import Placed, Progress
from builds.planner.plan import Plan as Answer
from builds.planner.problem import Problem, ProblemError
from builds.planner.search import FaultyPlan, plan
from garage.actions.refused import Refused
from garage.background import enqueue
from garage.models import Garage, Membership

KEPT = 30
LAST_DAYS, ODDS = "builds.plan.tasks.last_days", "builds.plan.tasks.odds"
QUICK = 16  # lists placed for a plan at once: those of every rule, by the promises, some cars first


class Overtaken(Exception):
    """Something was written, or another plan put on the wall, while this one was made."""


@dataclass(frozen=True)
class PlanningCase:
    """A problem, what it was made from, and the clock that turns its slots into moments."""

    problem: Problem
    made_from: dict[str, Any]
    clock: PlanClock

    @classmethod
    def of(cls, stored: Stored) -> "PlanningCase":
        """What a plan that is kept was made from."""
        return cls(stored.problem, stored.row.made_from, stored.clock)

    @classmethod
    def noted(cls, row: Plan, garage: Garage) -> "PlanningCase":
        """What a plan that is noted is to be made from."""
        problem = unpacked(row.problem)
        return cls(problem, row.made_from, PlanClock.of(problem.start or "", ZoneInfo(garage.time_zone)))


def draft(garage: Garage, at: datetime, promised: Stored | None) -> PlanningCase:
    """What there is to plan at a moment; `promised` is kept to where that costs little.

    Raises Refused with one sentence when the rows do not hang together.
    """
    clock = PlanClock.from_moment(at, ZoneInfo(garage.time_zone))
    try:
        problem, basis = build_problem(garage, at, promised.promises(clock) if promised else ())
    except ProblemError as error:
        raise Refused(str(error)) from error
    began = promised.gone_by(at) if promised else None
    return PlanningCase(problem, {**basis.table(), "promised_at": began.isoformat() if began else None}, clock)


def answer(
    case: PlanningCase,
    *,
    seconds: float = 0,
    seed: int = 1,
    progress: Callable[[Progress], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Answer:
    """The planner's answer; where only the garage knows why a job has no place, it says so."""
    planned = plan(
        case.problem,
        seconds=seconds,
        seed=seed,
        tries=None if seconds else QUICK,
        progress=progress,
        stop=stop,
        when=case.clock.words,
    )
    return _explained(case, planned)


def _explained(case: PlanningCase, planned: Answer) -> Answer:
    refused = case.made_from.get("refused", {})
    unplaced = (replace(job, why=refused.get(job.id, job.why)) for job in planned.unplaced)
    return replace(planned, unplaced=tuple(unplaced))


def _stood(case: PlanningCase, before: Stored) -> list[Placed]:
    """The work of the plan before that is still to be done, in the slots of the case."""
    asked = {job.id for job in case.problem.jobs}
    slot = case.clock.last_until
    return [
        Placed(was.id, *(slot(before.clock.moment(at)) for at in (was.start, was.end)), was.people)
        for was in before.placed.values()
        if was.id in asked
    ]


def as_it_was(case: PlanningCase, before: Stored) -> Answer | None:
    """The plan before, moved to the new slots, if it still holds for all that there is to do."""
    placed = [Placed(job.id, 0, 0) for job in case.problem.jobs if is_fact(job.id)]
    placed += _stood(case, before)
    placed.sort(key=lambda place: (place.start, place.end))
    moved = Answer(tuple(placed))
    if faults(case.problem, moved):
        return None
    return replace(moved, score=score(case.problem, moved))


def best(case: PlanningCase, before: Stored | None, *, seconds: float = 0, seed: int = 1) -> Answer:
    """The planner's answer, or where it is no worse the plan before: as it was, else in its order."""
    new = answer(case, seconds=seconds, seed=seed)
    if before is None:
        return new
    in_order = planned_in_order(case.problem, _stood(case, before), when=case.clock.words)
    tried = (as_it_was(case, before), _explained(case, in_order), new)
    return min((made for made in tried if made), key=lambda made: worth(case.problem, made))


def keep(
    garage: Garage,
    case: PlanningCase,
    made: Answer,
    *,
    by: Membership | None,
    at: datetime,
    use: str = Plan.Use.TRIED,
    **more: Any,
) -> Plan:
    """Store a plan that has passed the checker; raises FaultyPlan rather than keep another."""
    row = Plan(garage=garage, made_at=at, made_by=by, use=use, made_from=case.made_from, **more)
    _fill(row, case, made)
    row.save()
    return row


def note(garage: Garage, case: PlanningCase, *, by: Membership, at: datetime) -> Plan:
    """Store what is to be tried, to be planned outside the write that asks for it."""
    problem, tried = packed(case.problem), Plan.Use.TRIED
    return Plan.objects.create(
        garage=garage, made_at=at, made_by=by, use=tried, problem=problem, answer={}, made_from=case.made_from
    )


def fill(row: Plan, case: PlanningCase, made: Answer) -> None:
    """Give what was noted its plan, unless somebody else was first: then that one is its plan.

    Raises FaultyPlan rather than keep one with a fault.
    """
    _fill(row, case, made)
    filled = {name: getattr(row, name) for name in ("problem", "answer", "seconds", "tried")}
    mine = Plan.objects.filter(pk=row.pk)
    if not mine.filter(answer={}).update(**filled):
        for name, value in (mine.values(*filled).first() or {}).items():
            setattr(row, name, value)


def _fill(row: Plan, case: PlanningCase, made: Answer) -> None:
    wrong = faults(case.problem, made)
    if wrong:
        raise FaultyPlan(" ".join(wrong))
    row.problem, row.answer = packed(case.problem), answer_table(made)
    row.seconds, row.tried = made.seconds, made.tried


@transaction.atomic
def put_up(
    garage: Garage,
    case: PlanningCase,
    made: Answer,
    *,
    before: Stored | None,
    at: datetime,
    by: Membership | None = None,
) -> Plan:
    """Put a plan on the wall in place of `before`, made when the garage had counted `garage.writes`.

    A plan under which no session began is replaced, one that stood when a session began is kept, as
    the latest of so many. Until when parts may come, and its odds, are found beside the answer. Raises
    Overtaken; FaultyPlan rather than put up a plan with a fault.
    """
    sessions = (datetime.fromisoformat(begins) for begins in case.made_from["sessions"])
    dues = (datetime.fromisoformat(car["due"]) for car in case.made_from["cars"].values())
    took_place_of = instead_of(before).table() if before else None
    row = keep(
        garage,
        replace(case, made_from={**case.made_from, "instead_of": took_place_of}),
        made,
        by=by,
        at=at,
        use=Plan.Use.SHOWN,
        writes=garage.writes,
        stands_until=stands_until(TimedPlan(case.problem, made, case.clock), dues, at),
        session_at=min((begins for begins in sessions if begins > at), default=None),
    )
    shown = Plan.objects.in_garage(garage).shown()
    if before and (before.row.session_at is None or before.row.session_at > at):
        shown.filter(pk=before.row.pk).delete()
    shown.filter(pk__in=list(shown.values_list("pk", flat=True)[KEPT:])).delete()
    if settings.PLAN_IN_BACKGROUND:
        enqueue(LAST_DAYS, row.pk)
        enqueue(ODDS, row.pk)
    _refuse_overtaken(garage, row, before)
    return row


def _refuse_overtaken(garage: Garage, row: Plan, before: Stored | None) -> None:
    """Last, as writes do: who has the garage's row waits for nothing else. No key: rows that name it pass."""
    counted = Garage.objects.select_for_update(no_key=True).values_list("writes", flat=True).get(pk=garage.pk)
    others = Plan.objects.in_garage(garage).shown().filter(pk__gt=before.row.pk if before else 0)
    if counted != garage.writes or others.exclude(pk=row.pk).exists():
        raise Overtaken

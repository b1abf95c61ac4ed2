"""Making the garage's plan, keeping it, and taking one that was only offered."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.ids import is_fact
from builds.plan.engine.packed import answer_table, packed
from builds.plan.facts.problem import build_problem
from builds.plan.facts.stored import Stored, shown
from builds.plan.models import Plan
from builds.planner.check import faults, score
from builds.planner.plan import Placed, Progress
from builds.planner.plan import Plan as Answer
from builds.planner.problem import Problem, ProblemError
from builds.planner.search import FaultyPlan, plan
from garage.actions.refused import Refused
from garage.models import Garage, Membership

KEPT = 30


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


def draft(garage: Garage, at: datetime, before: Stored | None) -> PlanningCase:
    """What there is to plan at a moment; `before` is kept to where that costs little.

    Raises Refused with one sentence when the rows do not hang together.
    """
    clock = PlanClock.from_moment(at, ZoneInfo(garage.time_zone))
    try:
        problem, basis = build_problem(garage, at, before.promises(clock) if before else ())
    except ProblemError as error:
        raise Refused(str(error)) from error
    return PlanningCase(problem, basis.table(), clock)


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
        progress=progress,
        stop=stop,
        when=case.clock.words,
    )
    refused = case.made_from.get("refused", {})
    unplaced = (replace(job, why=refused.get(job.id, job.why)) for job in planned.unplaced)
    return replace(planned, unplaced=tuple(unplaced))


def as_it_was(case: PlanningCase, before: Stored) -> Answer | None:
    """The plan before, moved to the new slots, if it still holds for all that there is to do."""
    asked = [job.id for job in case.problem.jobs]
    placed = [Placed(job, 0, 0) for job in asked if is_fact(job)]
    for was in before.placed.values():
        if was.id in asked:
            start, end = (case.clock.last_until(before.clock.moment(at)) for at in (was.start, was.end))
            placed.append(Placed(was.id, start, end, was.people))
    placed.sort(key=lambda place: (place.start, place.end))
    moved = Answer(tuple(placed))
    if faults(case.problem, moved):
        return None
    return replace(moved, score=score(case.problem, moved))


@transaction.atomic
def keep(
    garage: Garage,
    case: PlanningCase,
    made: Answer,
    *,
    by: Membership | None,
    at: datetime,
    use: str = Plan.Use.SHOWN,
) -> Plan:
    """Store a plan that has passed the checker; raises FaultyPlan rather than keep another."""
    wrong = faults(case.problem, made)
    if wrong:
        raise FaultyPlan(" ".join(wrong))
    row = Plan.objects.create(
        garage=garage,
        made_at=at,
        made_by=by,
        use=use,
        problem=packed(case.problem),
        answer=answer_table(made),
        made_from=case.made_from,
        seconds=made.seconds,
        tried=made.tried,
    )
    plans = Plan.objects.in_garage(garage)
    newest = plans.order_by("-made_at", "-pk").values_list("pk", flat=True)[:KEPT]
    plans.exclude(pk__in=list(newest)).delete()
    return row


def make_plan(garage: Garage, *, by: Membership | None, at: datetime, seconds: float = 0, seed: int = 1) -> Plan:
    """Plan the garage as it stands and put the plan on the wall. Raises Refused.

    The plan before stays where it still holds and is no worse.
    """
    before = shown(garage)
    case = draft(garage, at, before)
    return keep(garage, case, best(case, before, seconds=seconds, seed=seed), by=by, at=at)


def best(case: PlanningCase, before: Stored | None, *, seconds: float = 0, seed: int = 1) -> Answer:
    """The planner's answer, or the plan before where it still holds and is no worse."""
    new = answer(case, seconds=seconds, seed=seed)
    was = as_it_was(case, before) if before else None
    return was if was and was.score <= new.score else new


@transaction.atomic
def take(row: Plan, *, by: Membership, at: datetime) -> None:
    """Put a plan that a search only offered on the wall."""
    if row.use != Plan.Use.TRIED:
        raise Refused("This plan is on the wall already.")
    if row.is_trial:
        raise Refused("This plan was only tried: keep what was changed in it, and it is planned.")
    row.use, row.made_at, row.made_by = Plan.Use.SHOWN, at, by
    row.save(update_fields=["use", "made_at", "made_by"])

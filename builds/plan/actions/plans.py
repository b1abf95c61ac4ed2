"""Making the garage's plan, keeping it, and taking one that was only offered."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction

from builds.cure.facts.plan_clock import PlanClock
from builds.plan.facts.problem import build_problem
from builds.plan.facts.stored import Stored, answer_table, packed, shown
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
        """The draft that a plan on the wall was made from."""
        return cls(stored.problem, stored.row.made_from if stored.row else {}, stored.clock)


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
    drawn: PlanningCase,
    *,
    seconds: float = 0,
    seed: int = 1,
    progress: Callable[[Progress], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Answer:
    """The planner's answer; where only the garage knows why a job has no place, it says so."""
    found = plan(
        drawn.problem,
        seconds=seconds,
        seed=seed,
        progress=progress,
        stop=stop,
        when=drawn.clock.words,
    )
    refused = drawn.made_from.get("refused", {})
    unplaced = (replace(row, why=refused.get(row.id, row.why)) for row in found.unplaced)
    return replace(found, unplaced=tuple(unplaced))


def as_it_was(drawn: PlanningCase, before: Stored) -> Answer | None:
    """The plan before, moved to the new slots, if it still holds for all that there is to do."""
    facts = [job.id for job in drawn.problem.jobs if job.id.startswith("fact-")]
    rows = [Placed(name, 0, 0) for name in facts]
    wanted = {job.id for job in drawn.problem.jobs}
    for row in before.placed.values():
        if row.id in wanted:
            start, end = (drawn.clock.last_until(before.clock.moment(at)) for at in (row.start, row.end))
            rows.append(Placed(row.id, start, end, row.people))
    rows.sort(key=lambda row: (row.start, row.end))
    found = Answer(tuple(rows))
    if faults(drawn.problem, found):
        return None
    return replace(found, score=score(drawn.problem, found))


@transaction.atomic
def keep(
    garage: Garage,
    drawn: PlanningCase,
    found: Answer,
    *,
    by: Membership | None,
    at: datetime,
    use: str = Plan.Use.SHOWN,
) -> Plan:
    """Store a plan that has passed the checker; raises FaultyPlan rather than keep another."""
    wrong = faults(drawn.problem, found)
    if wrong:
        raise FaultyPlan(" ".join(wrong))
    row = Plan.objects.create(
        garage=garage,
        made_at=at,
        made_by=by,
        use=use,
        problem=packed(drawn.problem),
        answer=answer_table(found),
        made_from=drawn.made_from,
        seconds=found.seconds,
        tried=found.tried,
    )
    rows = Plan.objects.in_garage(garage)
    newest = rows.order_by("-made_at", "-pk").values_list("pk", flat=True)[:KEPT]
    rows.exclude(pk__in=list(newest)).delete()
    return row


def make_plan(garage: Garage, *, by: Membership | None, at: datetime, seconds: float = 0, seed: int = 1) -> Plan:
    """Plan the garage as it stands and put the plan on the wall. Raises Refused.

    The plan before stays where it still holds and is no worse.
    """
    before = shown(garage)
    drawn = draft(garage, at, before)
    return keep(garage, drawn, best(drawn, before, seconds=seconds, seed=seed), by=by, at=at)


def best(drawn: PlanningCase, before: Stored | None, *, seconds: float = 0, seed: int = 1) -> Answer:
    """The planner's answer, or the plan before where it still holds and is no worse."""
    found = answer(drawn, seconds=seconds, seed=seed)
    was = as_it_was(drawn, before) if before else None
    return was if was and was.score <= found.score else found


@transaction.atomic
def take(row: Plan, *, by: Membership, at: datetime) -> None:
    """Put a plan that a search only offered on the wall."""
    if row.use != Plan.Use.TRIED:
        raise Refused("This plan is on the wall already.")
    if row.is_trial:
        raise Refused("This plan was only tried: keep what was changed in it, and it is planned.")
    row.use, row.made_at, row.made_by = Plan.Use.SHOWN, at, by
    row.save(update_fields=["use", "made_at", "made_by"])

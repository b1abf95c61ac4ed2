"""Plans as they are kept: the planner's own problem and answer, in the garage's own time."""

from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.packed import answer_from, unpacked
from builds.plan.engine.stored import Stored
from builds.plan.models import Plan
from builds.planner.plan import Plan as Answer
from builds.planner.problem import Problem
from garage.access import refuse_presence
from garage.models import Garage, Membership
from garage.remembered import notes_of, remembered


def read(row: Plan, garage: Garage) -> Stored:
    problem, answer = remembered(garage, (Plan, row.pk), lambda: (unpacked(row.problem), answer_from(row.answer)))
    return _stored(problem, answer, garage, row)


def _stored(problem: Problem, answer: Answer, garage: Garage, row: Plan) -> Stored:
    return Stored(problem, answer, PlanClock.of(problem.start or "", ZoneInfo(garage.time_zone)), row)


def promised(garage: Garage, at: datetime) -> Stored | None:
    """The plan that stood when the last session began: what people go by. One query."""
    row = Plan.objects.in_garage(garage).stood(at).first()
    return read(row, garage) if row else None


def shown_to(reader: Membership) -> Stored | None:
    """As `shown`; it does not say who is not in to whoever may not see that."""
    plan = shown(reader.garage)
    return replace(plan, discreet=True) if plan and refuse_presence(reader) else plan


def shown(garage: Garage) -> Stored | None:
    """The plan on the wall; one query, and one more for a plan that is not remembered.

    What is left for later is never asked for: it may be gone by then, with the plan, and what is remembered too.
    """
    rows, notes = Plan.objects.in_garage(garage).shown(), notes_of(garage)
    if notes is not None and (light := rows.defer("problem", "answer").first()):
        kept = notes.get((Plan, light.pk))
        if kept is not None:
            problem, answer = kept
            return _stored(problem, answer, garage, light)
    row = rows.first()
    return read(row, garage) if row else None


def wall(garage: Garage) -> int | None:
    """Which plan is on the wall (its pk)."""
    return Plan.objects.in_garage(garage).shown().values_list("pk", flat=True).first()

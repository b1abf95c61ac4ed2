"""Plans as they are kept: the planner's own problem and answer, in the garage's own time."""

from datetime import datetime
from zoneinfo import ZoneInfo

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.packed import answer_from, unpacked
from builds.plan.engine.stored import Stored
from builds.plan.models import Plan
from garage.models import Garage
from garage.remembered import notes_of, remembered


def read(row: Plan, garage: Garage) -> Stored:
    problem, answer = remembered(garage, (Plan, row.pk), lambda: (unpacked(row.problem), answer_from(row.answer)))
    clock = PlanClock.of(problem.start or "", ZoneInfo(garage.time_zone))
    return Stored(problem, answer, clock, row)


def promised(garage: Garage, at: datetime) -> Stored | None:
    """The plan that stood when the last session began: what people go by. One query."""
    row = Plan.objects.in_garage(garage).stood(at).first()
    return read(row, garage) if row else None


def shown(garage: Garage) -> Stored | None:
    """The plan on the wall; one query, and one more for a plan that is not remembered."""
    rows, notes = Plan.objects.in_garage(garage).shown(), notes_of(garage)
    row = rows.first() if notes is None else rows.defer("problem", "answer").first()
    if notes is not None and row and (Plan, row.pk) not in notes:
        row = rows.first()  # whole: what is left for later may be gone by then, with the plan
    return read(row, garage) if row else None


def wall(garage: Garage) -> int | None:
    """Which plan is on the wall (its pk)."""
    return Plan.objects.in_garage(garage).shown().values_list("pk", flat=True).first()

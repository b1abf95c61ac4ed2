"""Plans as they are kept: the planner's own problem and answer, in the garage's own time."""

from dataclasses import dataclass
from zoneinfo import ZoneInfo

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.packed import answer_from, unpacked
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.models import Plan
from garage.models import Garage


@dataclass(frozen=True)
class Stored(TimedPlan):
    """A plan with the row that keeps it."""

    row: Plan


def read(row: Plan, garage: Garage) -> Stored:
    problem = unpacked(row.problem)
    clock = PlanClock.of(problem.start or "", ZoneInfo(garage.time_zone))
    return Stored(problem, answer_from(row.answer), clock, row)


def shown(garage: Garage) -> Stored | None:
    """The plan on the wall; one query."""
    row = Plan.objects.in_garage(garage).shown().first()
    return read(row, garage) if row else None

"""A late car as a hunt for remedies and the deeds take it: the garage's rows, the problem, its plan."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.facts.rows import PlanRows
from builds.planner.plan import Plan
from builds.planner.problem import Problem
from builds.remedies.facts.deed_rows import DeedRows
from garage.models import Entry


@dataclass(frozen=True)
class LateCar:
    """`plan` is the best quick plan of things as they are, near the one on the wall.

    `vehicle` is how the problem calls the car, `due` the slot in which it leaves, or the last one of the plan.
    `refused` says of jobs (ids) why they have no place.
    """

    entry: Entry
    plan_rows: PlanRows
    deed_rows: DeedRows
    clock: PlanClock
    problem: Problem
    plan: Plan
    vehicle: str
    due: int
    refused: Mapping[str, str] = field(default_factory=dict)

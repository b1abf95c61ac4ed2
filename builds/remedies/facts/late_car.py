"""A late car as a hunt for remedies and the deeds take it: the garage's rows, the problem, its plan."""

from dataclasses import dataclass

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.ids import id_of
from builds.plan.facts.rows import PlanRows
from builds.planner.plan import Plan
from builds.planner.problem import Problem
from builds.remedies.facts.deed_rows import DeedRows
from garage.models import Entry


@dataclass(frozen=True)
class LateCar:
    """`plan` is the best quick plan of things as they are, near the one on the wall."""

    entry: Entry
    plan_rows: PlanRows
    deed_rows: DeedRows
    clock: PlanClock
    problem: Problem
    plan: Plan

    @property
    def vehicle(self) -> str:
        """How the problem calls the car."""
        return id_of("car", self.entry.vehicle_id)

    @property
    def due(self) -> int:
        """The slot in which the car leaves, or the last one of the plan."""
        return min(self.clock.last_until(self.entry.event.due_at), self.problem.slots)

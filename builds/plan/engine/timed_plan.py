"""A problem, its plan, and the clock that turns slots into moments."""

from dataclasses import dataclass
from functools import cached_property

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.ids import is_fact
from builds.planner.explain import reasons
from builds.planner.hindrance import StartReason
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Job, Problem, Promise


@dataclass(frozen=True)
class TimedPlan:
    """`jobs`, `placed` and `unplaced` go by the id of a job, without the facts that only start a hold.

    `people` are names by id, `reasons` by job why it starts when it does.
    """

    problem: Problem
    answer: Plan
    clock: PlanClock

    @cached_property
    def jobs(self) -> dict[str, Job]:
        return {job.id: job for job in self.problem.jobs if not is_fact(job.id)}

    @cached_property
    def placed(self) -> dict[str, Placed]:
        return {placed.id: placed for placed in self.answer.placed if placed.id in self.jobs}

    @cached_property
    def unplaced(self) -> dict[str, Unplaced]:
        return {unplaced.id: unplaced for unplaced in self.answer.unplaced if unplaced.id in self.jobs}

    @cached_property
    def people(self) -> dict[str, str]:
        return {person.id: person.name or person.id for person in self.problem.people}

    @cached_property
    def reasons(self) -> dict[str, StartReason]:
        return reasons(self.problem, self.answer, self.clock.words)

    def promises(self, clock: PlanClock) -> tuple[Promise, ...]:
        """Where the work stands in this plan, in the slots of another clock."""
        return tuple(
            Promise(placed.id, clock.last_until(self.clock.moment(placed.start)), placed.people)
            for placed in self.placed.values()
        )

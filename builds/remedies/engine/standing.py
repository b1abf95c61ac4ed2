"""How a car stands in a plan: when it is ready, by how much it is late, what has no place."""

from __future__ import annotations

from dataclasses import dataclass

from builds.planner.axis import clip
from builds.planner.explain import binding_chain
from builds.planner.plan import Plan
from builds.planner.problem import Problem


@dataclass(frozen=True, slots=True)
class CarStanding:
    """`ready` is the slot in which the last safety or needed job ends, None with one unplaced.

    `due` is the earliest due slot among them, None without one; `late` the slots past their due
    slots, all late jobs added up; `unplaced` the ids of those without a place.
    """

    ready: int | None
    due: int | None
    late: int
    unplaced: tuple[str, ...]

    @property
    def makes_it(self) -> bool:
        """Everything that has to be done is done when it is due."""
        return not self.late and not self.unplaced


def standing(problem: Problem, plan: Plan, vehicle: str) -> CarStanding:
    """How the car (an id) stands in the plan. KeyError for a job that the plan does not know."""
    ends = {placed.id: placed.end for placed in plan.placed}
    left = {unplaced.id for unplaced in plan.unplaced}
    jobs = problem.must_do(vehicle)
    unplaced = tuple(job.id for job in jobs if job.id in left)
    placed = [(job, ends[job.id]) for job in jobs if job.id not in left]
    dues = [job.due for job in jobs if job.due is not None]
    return CarStanding(
        ready=None if unplaced else max((end for _, end in placed), default=0),
        due=min(dues, default=None),
        late=sum(max(0, end - job.due) for job, end in placed if job.due is not None),
        unplaced=unplaced,
    )


def chain_to_last(problem: Problem, plan: Plan, vehicle: str) -> set[str]:
    """The jobs (ids), of whichever car, that the last safety or needed job of this one waits for in the plan."""
    ends = {placed.id: placed.end for placed in plan.placed}
    jobs = problem.must_do(vehicle)
    if not jobs:
        return set()
    last = max(jobs, key=lambda job: ends.get(job.id, problem.slots + 1))
    return {reason.job for reason in binding_chain(problem, plan, last.id) if reason.job is not None}


def missing_cars(problem: Problem, plan: Plan) -> set[str]:
    """The cars with a due safety or needed job that is late or has no place."""
    ends = {placed.id: placed.end for placed in plan.placed}
    return {
        job.vehicle
        for job in problem.jobs
        if job.vehicle is not None
        and job.must_do
        and job.due is not None
        and ends.get(job.id, problem.slots + 1) > job.due
    }


def late_wanted(problem: Problem, plan: Plan) -> set[str]:
    """The ids of wanted jobs that are late or have no place."""
    ends = {placed.id: placed.end for placed in plan.placed}
    return {
        job.id
        for job in problem.jobs
        if not job.must_do and job.due is not None and ends.get(job.id, problem.slots + 1) > job.due
    }


def worked_between(problem: Problem, since: int, until: int) -> int:
    """The slots in [since, until) in which at least one person is in."""
    bits = 0
    for person in problem.people:
        for begin, end in clip(person.windows, problem.slots):
            bits |= (1 << end) - (1 << begin)
    return (bits >> since & (1 << max(0, until - since)) - 1).bit_count()

"""Whether a car's work is in time in a plan, and the plan that stands as the start of others."""

from __future__ import annotations

from dataclasses import replace

from builds.planner.plan import Plan
from builds.planner.problem import Problem, Promise


def in_time(problem: Problem, plan: Plan, car: str | None) -> bool:
    """All safety and needed jobs of the car have a place, and end by their due slot where they have one."""
    ends = {placed.id: placed.end for placed in plan.placed}
    return all(job.id in ends and (job.due is None or ends[job.id] <= job.due) for job in problem.must_do(car))


def as_it_stands(problem: Problem, plan: Plan) -> Problem:
    """The problem with the plan as what was promised, so that planning it again begins there."""
    promises = tuple(Promise(placed.id, placed.start, placed.people) for placed in plan.placed)
    return replace(problem, before=promises, goal="event")

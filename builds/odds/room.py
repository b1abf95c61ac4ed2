"""How much more work a car can take: one more job at the end of its chain, planned again."""

from __future__ import annotations

from dataclasses import replace

from builds.odds.in_time import as_it_stands, in_time
from builds.planner.plan import Plan
from builds.planner.problem import Job, Link, Problem
from builds.planner.search import plan as planned

MORE = "one more job"
"""The id of the job that is tried; no problem has one of that name."""


def more_work(problem: Problem, plan: Plan, car: str) -> int | None:
    """The most slots of one more job that leave the car in time; None when it is not in time as it is.

    The job comes after all safety and needed jobs of the car, wants one person whoever it is, may
    stop at the end of a session, and is due when the last of those is. Each length is planned again
    from the plan that stands; the longest is found by halving, to the slot, and up to the slots that
    are left until it is due. None as well for a car with nothing due.
    """
    must = problem.must_do(car)
    dues = [job.due for job in must if job.due is not None]
    if not dues:
        return None
    stands = as_it_stands(problem, plan)
    if not in_time(stands, plan, car):
        return None
    ends = {placed.id: placed.end for placed in plan.placed}
    fits, beyond = 0, max(1, max(dues) - max(ends[job.id] for job in must) + 1)
    while beyond - fits > 1:
        length = (fits + beyond) // 2
        longer = _with_more(stands, must, car, length, max(dues))
        if in_time(longer, planned(longer), car):
            fits = length
        else:
            beyond = length
    return fits


def _with_more(problem: Problem, must: list[Job], car: str, length: int, due: int) -> Problem:
    links = tuple(Link(job.id, MORE) for job in must)
    more = Job(MORE, car, "needed", length, 1, due=due)
    return replace(problem, jobs=(*problem.jobs, more), links=(*problem.links, *links))

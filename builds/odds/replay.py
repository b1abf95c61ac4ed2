"""One run with lengths that are known: a plan gone through with what jobs really took."""

from __future__ import annotations

from collections.abc import Mapping

from builds.odds.course import Course
from builds.planner.plan import Plan
from builds.planner.problem import Problem


def replay(problem: Problem, plan: Plan, minutes: Mapping[str, float]) -> dict[str, tuple[float, float]]:
    """Start and end, in slots and parts of slots, of each placed job, by job id.

    `minutes` gives the work of jobs by id; a job not named takes what the plan gives it, one the
    plan gives no work takes none. Infinite: not before the horizon. ValueError for a plan that
    does not hold for the problem.
    """
    course = Course(problem, plan)
    works = [
        minutes.get(job.id, planned) if planned else 0.0
        for job, planned in zip(course.jobs, course.planned, strict=True)
    ]
    opened, ends, _ = course.walk(works)
    return {
        job.id: (hours.start(at, work) / course.slot_minutes, end / course.slot_minutes)
        for job, hours, at, work, end in zip(course.jobs, course.hours, opened, works, ends, strict=True)
    }

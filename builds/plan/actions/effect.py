"""What a job does to the plan, found by planning the garage without it and with it."""

from dataclasses import dataclass
from datetime import datetime

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.actions.plans import QUICK
from builds.plan.engine.ids import id_of
from builds.plan.engine.outcome import CarOutcome, outcome
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.engine.without import without
from builds.plan.facts.must_do import must_do
from builds.plan.facts.problem import problem_of
from builds.plan.facts.rows import PlanRows, fetch
from builds.planner.problem import Problem, ProblemError
from builds.planner.search import plan
from builds.work.models.job import Job
from garage.models import Entry, Garage


@dataclass(frozen=True)
class Effect:
    """`before` and `after`, by the car (pk) of each entry: what becomes of it without the job, and with it.

    `plan` is the one with the job.
    """

    job: Job
    plan: TimedPlan
    entries: dict[int, Entry]
    before: dict[int, CarOutcome]
    after: dict[int, CarOutcome]


def effect_of(garage: Garage, job: Job, *, at: datetime) -> Effect | None:
    """None when the job is not open, when no car is entered, or when nothing can be planned.

    Both plans are quick ones, made alike, so that the job alone makes the difference; none is kept.
    """
    rows = fetch(garage, at)
    if job.pk not in rows.work.jobs or not rows.entry:
        return None
    try:
        problem, _ = problem_of(rows)
        with_it, without_it = _planned(problem, rows), _planned(without(problem, id_of("job", job.pk)), rows)
    except ProblemError:
        return None
    return Effect(job, with_it, rows.entry, _outcomes(without_it, rows), _outcomes(with_it, rows))


def _planned(problem: Problem, rows: PlanRows) -> TimedPlan:
    return TimedPlan(problem, plan(problem, tries=QUICK), PlanClock.of(problem.start or "", rows.zone))


def _outcomes(plan: TimedPlan, rows: PlanRows) -> dict[int, CarOutcome]:
    jobs = must_do(rows.work.jobs.values())
    return {
        car: outcome(plan, [job for job in jobs[car] if job.id in plan.jobs], entry.event.due_at, rows.at)
        for car, entry in rows.entry.items()
    }

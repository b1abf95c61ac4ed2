"""What a job does to the plan, found by planning the garage without it and with it."""

from dataclasses import replace
from datetime import datetime

from builds.cure.facts.plan_clock import PlanClock, name_of
from builds.plan.facts.outcome import CarOutcome, MustDoJob, outcome
from builds.plan.facts.problem import problem_of
from builds.plan.facts.rows import PlanRows, fetch
from builds.plan.facts.stored import Stored
from builds.planner.problem import Problem, ProblemError
from builds.planner.search import first_plan
from builds.work.models.job import Job
from garage.models import Garage


def effect_of(garage: Garage, job: Job, at: datetime) -> str:
    """`Heron is then ready Thu 20:30 instead of Thu 19:00, still in time.`

    Empty when the job is not open, when no car is entered, or when nothing can be planned.
    Both plans are quick ones, made alike, so that the job alone makes the difference.
    """
    rows = fetch(garage, at)
    if job.pk not in rows.work.jobs or not rows.entry:
        return ""
    try:
        problem, _ = problem_of(rows)
        after, before = _planned(problem, rows), _planned(_without(problem, job), rows)
    except ProblemError:
        return ""
    said = [_own(job, rows, before, after)]
    for car in rows.entry:
        if car != job.vehicle_id:
            said.append(_other(car, rows, before, after))
    return " ".join(filter(None, said))


def _planned(problem: Problem, rows: PlanRows) -> Stored:
    clock = PlanClock.of(problem.start or "", rows.zone)
    return Stored(problem, first_plan(problem), clock)


def _without(problem: Problem, job: Job) -> Problem:
    """The same problem less one job; what came before it still comes before what comes after."""
    name = name_of("job", job.pk)
    into = [link for link in problem.links if link.after == name]
    out = [link for link in problem.links if link.before == name]
    kept = [link for link in problem.links if name not in (link.before, link.after)]
    known = {(link.before, link.after) for link in kept}
    kept += [
        replace(first, after=then.after) for first in into for then in out if (first.before, then.after) not in known
    ]
    return replace(
        problem,
        jobs=tuple(row for row in problem.jobs if row.id != name),
        links=tuple(kept),
        holds=tuple(row for row in problem.holds if name not in (row.start, row.until)),
    )


def _outcome(car: int, rows: PlanRows, plan: Stored) -> CarOutcome:
    jobs = [
        MustDoJob(name_of("job", job.pk), job.title)
        for job in rows.work.jobs.values()
        if job.vehicle_id == car and job.rank != Job.Rank.WANTED and name_of("job", job.pk) in plan.jobs
    ]
    return outcome(plan, jobs, rows.entry[car].event.due_at, rows.at)


def _own(job: Job, rows: PlanRows, before: Stored, after: Stored) -> str:
    """What becomes of the job's own car."""
    car = job.vehicle
    name = name_of("job", job.pk)
    if name in after.unplaced:
        return f"It finds no place in the plan. {after.unplaced[name].why}"
    if car.pk not in rows.entry:
        return f"It is done {after.clock.words(after.placed[name].end)}; {car} has no event ahead."
    was, now = _outcome(car.pk, rows, before), _outcome(car.pk, rows, after)
    if was.makes_it and now.makes_it is False:
        return f"{car} then does not make {rows.entry[car.pk].event}: {now.sentence}"
    if was.ready_at is None or now.ready_at is None:
        return f"{car} still does not make {rows.entry[car.pk].event}: {now.sentence}"
    in_time = "still in time" if now.makes_it else "too late, as before"
    ready = after.clock.said(now.ready_at)
    if was.ready_at == now.ready_at:
        return f"{car} is ready {ready} as before, {in_time}."
    return f"{car} is then ready {ready} instead of {after.clock.said(was.ready_at)}, {in_time}."


def _other(car: int, rows: PlanRows, before: Stored, after: Stored) -> str:
    """What becomes of another car, when that differs."""
    was, now = _outcome(car, rows, before).makes_it, _outcome(car, rows, after).makes_it
    if was == now:
        return ""
    verb = "makes" if now else "does not make"
    return f"{rows.entry[car].vehicle} then {verb} {rows.entry[car].event}."

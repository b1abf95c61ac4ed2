"""A general scheduling library over a constraint solver, on the same problems as the planner."""

from __future__ import annotations

from importlib.util import find_spec
from itertools import combinations

from builds.planner.axis import clip
from builds.planner.fields import Windows
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Job, Problem

RANK_WORTH = {"safety": 10_000, "needed": 100, "wanted": 1}
"""Weight of one late job: the ranks of the score, as far apart as one sum allows."""


def missing() -> str | None:
    """Why the library cannot be asked here, or None when it can."""
    absent = [name for name in ("ortools", "pyjobshop") if find_spec(name) is None]
    return f"{' and '.join(absent)} not installed" if absent else None


def library_plan(problem: Problem, seconds: float, workers: int, ends: bool = False) -> tuple[Plan | None, bool]:
    """The library's plan after `seconds` on `workers` cores, and whether it proved it the best.

    None when it found none. With `ends` it is asked for the least sum of ends instead, safety
    counted three times.

    It is given calendars, skills, links and stations, and asked for the least weighted lateness
    (for the goal "finish", the least makespan). Holds are left out, and that a car stands in one
    place: it cannot express them. Past the horizon everybody works on without end, so that a plan
    exists; what it puts there counts as unplaced.
    """
    from pyjobshop import Model

    model = Model()
    end = problem.slots
    beyond = end + sum(job.work for job in problem.jobs) + sum(x.wait for x in problem.links)
    people = [model.add_machine(breaks=_breaks(person.windows, end, beyond)) for person in problem.people]
    stations = {
        row.id: model.add_renewable(row.capacity, breaks=_breaks(row.windows, end, beyond)) for row in problem.stations
    }
    tasks, crews = {}, []
    for job in problem.jobs:
        due = beyond if job.due is None else job.due
        worth = round(job.weight * RANK_WORTH[job.rank])
        if ends:
            worth = 3 if job.rank == "safety" else 1
        held = model.add_job(weight=worth, due_date=due)
        task = model.add_task(held, earliest_start=max(0, job.earliest), allow_breaks=job.splits)
        tasks[job.id] = task
        own = []
        if job.windows is not None:
            own = [model.add_renewable(1, breaks=_breaks(job.windows, end, beyond))]
        used = [stations[name] for name in job.uses]
        demands = list(job.uses.values()) + [1] * len(own)
        for crew in _crews(problem, job):
            resources = [people[k] for k in crew] + used + own
            model.add_mode(task, resources, job.work, [0] * len(crew) + demands)
            crews.append(crew)
    for link in problem.links:
        model.add_end_before_start(tasks[link.before], tasks[link.after], link.wait)
    if problem.goal == "finish":
        model.set_objective(weight_makespan=1)
    elif ends:
        model.set_objective(weight_makespan=0, weight_total_flow_time=1)
    else:
        model.set_objective(weight_makespan=0, weight_tardy_jobs=1)
    result = model.solve(solver="ortools", time_limit=seconds, num_workers=workers, display=False)
    if not result.best.tasks:
        return None, False
    placed, left = [], []
    names = [person.id for person in problem.people]
    for job, task in zip(problem.jobs, result.best.tasks, strict=True):
        if task.end > end:
            left.append(Unplaced(job.id, "The library put it past the horizon."))
        else:
            crew = tuple(names[k] for k in crews[task.mode])
            placed.append(Placed(job.id, task.start, task.end, crew))
    proved = result.status.value == "Optimal"
    return Plan(tuple(placed), tuple(left), seconds=result.runtime), proved


def _breaks(windows: Windows | None, end: int, beyond: int) -> list[tuple[int, int]]:
    """The gaps between windows as far as the horizon; past it there are none."""
    shut, at = [], 0
    for begin, stop in (*clip(windows, end), (end, beyond)):
        if begin > at:
            shut.append((at, begin))
        at = stop
    return shut


def _crews(problem: Problem, job: Job) -> list[tuple[int, ...]]:
    able = {k for k, person in enumerate(problem.people) if not job.skill or job.skill in person.skills}
    groups = combinations(range(len(problem.people)), job.hands)
    return [group for group in groups if not job.hands or able & set(group)]

"""Changes that a problem suggests by itself: wanted work put off, room for one more."""

from __future__ import annotations

from builds.planner.explain import binding_chain
from builds.planner.plan import Plan
from builds.planner.problem import Job, Problem
from builds.remedies.engine.changes import Change, Defer, Room
from builds.remedies.engine.standing import musts, standing

ALONE = 5
"""Wanted jobs that are tried one by one before more are put off together."""


def candidates(problem: Problem, plan: Plan, vehicle: str) -> tuple[Change, ...]:
    """For a car that is late in the plan; () for one without a due slot."""
    due = standing(problem, plan, vehicle).due
    if due is None:
        return ()
    return (*_put_off(problem, plan, vehicle, due), *_room(problem, vehicle))


def _put_off(problem: Problem, plan: Plan, vehicle: str, due: int) -> list[Change]:
    """Single wanted jobs, those most in the way first, then ever more of them, then all."""
    rows = _in_the_way(problem, plan, vehicle, due)
    sets: list[tuple[str, ...]] = [(name,) for name in rows[:ALONE]]
    count = 2
    while count < len(rows):
        sets.append(tuple(rows[:count]))
        count *= 2
    if len(rows) > 1:
        sets.append(tuple(rows))
    return [Defer(names, due) for names in sets]


def _in_the_way(problem: Problem, plan: Plan, vehicle: str, due: int) -> list[str]:
    """Wanted jobs planned before the slot that may be put off: on the chain, then the longest."""
    kept = _kept(problem)
    starts = {row.id: row.start for row in plan.placed}
    chain = _chain(problem, plan, vehicle)
    rows = [
        job
        for job in problem.jobs
        if job.rank == "wanted" and job.id not in kept and job.work and starts.get(job.id, due) < due
    ]
    rows.sort(key=lambda job: (job.id not in chain, -job.work * job.hands, job.id))
    return [job.id for job in rows]


def _kept(problem: Problem) -> set[str]:
    """Jobs that stay where they are: in hand, pinned, of a hold, or waited for by what must be."""
    before: dict[str, list[str]] = {}
    for link in problem.links:
        before.setdefault(link.after, []).append(link.before)
    reached = [job.id for job in problem.jobs if _stays(job)]
    reached += [name for hold in problem.holds for name in (hold.start, hold.until)]
    kept: set[str] = set()
    while reached:
        name = reached.pop()
        if name not in kept:
            kept.add(name)
            reached += before.get(name, [])
    return kept


def _stays(job: Job) -> bool:
    return job.rank != "wanted" or job.started or job.pinned is not None


def _chain(problem: Problem, plan: Plan, vehicle: str) -> set[str]:
    """The jobs that the last of the car waits for in this plan."""
    ends = {row.id: row.end for row in plan.placed}
    jobs = musts(problem, vehicle)
    if not jobs:
        return set()
    last = max(jobs, key=lambda job: ends.get(job.id, problem.slots + 1))
    chain = binding_chain(problem, plan, last.id)
    return {reason.job for reason in chain if reason.job is not None}


def _room(problem: Problem, vehicle: str) -> list[Change]:
    """One more unit of each station that the car's work shares with others, or lacks."""
    found: list[Change] = []
    for station in problem.stations:
        users = [job for job in problem.jobs if job.uses.get(station.id)]
        mine = any(job.vehicle == vehicle and job.rank != "wanted" for job in users)
        asked = sum(job.uses[station.id] for job in users)
        if mine and asked > station.capacity:
            found.append(Room(station.id))
    return found

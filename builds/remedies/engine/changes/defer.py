"""Wanted work put off until the late car has left, and which of it is worth a try."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from builds.planner.plan import Plan
from builds.planner.problem import Job, Problem
from builds.remedies.engine.changes.change import Change
from builds.remedies.engine.standing import chain_to_last, standing

EXPLAINING = 0.5
"""Hours of trouble for each job put off: telling whose job it is. Common practice, no source."""

ALONE = 5
"""Wanted jobs that are tried one by one before more are put off together."""


@dataclass(frozen=True, slots=True)
class Defer(Change):
    """Wanted jobs (ids) that wait until slot `until`, when the car that is late has left."""

    jobs: tuple[str, ...]
    until: int
    kind: str = "defer"

    @property
    def effort(self) -> float:
        return EXPLAINING * len(self.jobs)

    def apply(self, problem: Problem) -> Problem:
        """ValueError for a job that is not wanted: safety and needed work is never put off."""
        jobs = {job.id: job for job in problem.jobs}
        for name in self.jobs:
            job = jobs[name]
            if job.must_do:
                raise ValueError(f"{job.label} is {job.rank} work: it is not put off.")
            jobs[name] = replace(job, earliest=max(job.earliest, self.until), waits_for=None)
        return replace(problem, jobs=tuple(jobs.values()))

    def smaller(self, plan: Plan) -> Iterator[Change]:
        if len(self.jobs) > 1:
            for name in reversed(self.jobs):
                yield replace(self, jobs=tuple(other for other in self.jobs if other != name))

    def puts_off(self) -> frozenset[str]:
        return frozenset(self.jobs)

    def asks_more_than(self, other: Change) -> bool:
        return isinstance(other, Defer) and other.puts_off() <= self.puts_off()

    def joins(self, others: Iterable[Change]) -> bool:
        """One at a time: more work put off is another change of this kind."""
        return not any(isinstance(other, Defer) for other in others)


def deferrals(problem: Problem, plan: Plan, vehicle: str) -> list[Defer]:
    """For a car (an id) that is late in the plan, [] for one without a due slot.

    Single wanted jobs, those most in the way first, then ever more of them, then all.
    """
    due = standing(problem, plan, vehicle).due
    if due is None:
        return []
    names = _in_the_way(problem, plan, vehicle, due)
    groups: list[tuple[str, ...]] = [(name,) for name in names[:ALONE]]
    count = 2
    while count < len(names):
        groups.append(tuple(names[:count]))
        count *= 2
    if len(names) > 1:
        groups.append(tuple(names))
    return [Defer(group, due) for group in groups]


def _in_the_way(problem: Problem, plan: Plan, vehicle: str, due: int) -> list[str]:
    """Wanted jobs planned before the slot that may be put off: on the chain, then the longest."""
    kept = _kept(problem)
    starts = {placed.id: placed.start for placed in plan.placed}
    chain = chain_to_last(problem, plan, vehicle)
    movable = [
        job
        for job in problem.jobs
        if not job.must_do and job.id not in kept and job.work and starts.get(job.id, due) < due
    ]
    movable.sort(key=lambda job: (job.id not in chain, -job.work * job.hands, job.id))
    return [job.id for job in movable]


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
    return job.must_do or job.started or job.pinned is not None

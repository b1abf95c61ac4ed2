"""Work that may begin sooner: a part that comes sooner, a cure that a heater makes shorter."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass, replace

from builds.planner.fields import Windows
from builds.planner.problem import Job, Link, Problem
from builds.remedies.engine.changes.change import Change

NOWHERE: Windows = ()
"""The hours of a job that no plan has a place for as things are: it asks for nobody then."""


@dataclass(frozen=True, slots=True)
class Sooner(Change):
    """`jobs` have their new `earliest`, `waits_for` and `windows`, and `work`, `hands` and `skill` where no
    plan had room for them before; `links` their new `wait` and `ready`; nothing else of them counts.
    `trouble` is its effort, `behind` what brings it about, for whoever offers it.
    """

    kind: str
    trouble: float
    jobs: tuple[Job, ...] = ()
    links: tuple[Link, ...] = ()
    behind: Hashable = None

    @property
    def effort(self) -> float:
        return self.trouble

    @property
    def touches(self) -> set[str]:
        """The jobs (ids) that may begin sooner."""
        return {job.id for job in self.jobs} | {link.after for link in self.links}

    def apply(self, problem: Problem) -> Problem:
        jobs = {job.id: job for job in problem.jobs}
        for job in self.jobs:
            now = jobs[job.id]
            if now.windows == NOWHERE:
                now = replace(now, work=job.work, hands=job.hands, skill=job.skill)
            jobs[job.id] = replace(now, earliest=job.earliest, waits_for=job.waits_for, windows=job.windows)
        links = {(link.before, link.after): link for link in problem.links}
        for link in self.links:
            pair = link.before, link.after
            links[pair] = replace(links[pair], wait=link.wait, ready=link.ready)
        return replace(problem, jobs=tuple(jobs.values()), links=tuple(links.values()))

    def asks_more_than(self, other: Change) -> bool:
        """More trouble of the same kind, for work that less of it lets begin soon enough."""
        if not isinstance(other, Sooner) or other.kind != self.kind:
            return False
        return other.trouble < self.trouble and other.touches <= self.touches

    def joins(self, others: Iterable[Change]) -> bool:
        """Twice sooner for the same work would not add up."""
        return not any(isinstance(other, Sooner) and self.touches & other.touches for other in others)

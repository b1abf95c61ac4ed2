"""A problem by number: jobs, links and stations as the placing pass walks them."""

from __future__ import annotations

from builds.planner.crews import Crew, Roster
from builds.planner.holds import Holds
from builds.planner.looks import Looks
from builds.planner.problem import Problem
from builds.planner.stock import Stock

NEVER = 1 << 40
"""The end of a job without a place: later than any slot."""

PENDING = -1
"""The end of a job that a pass has not come to."""

Opening = tuple[int, int, tuple[int, ...] | None]
"""A link seen from one end: the other job, the wait, and the ready times if it has any."""


class Model:
    """Jobs numbered in the order of the problem; every list is indexed by that number.

    `before[j]` and `after[j]` are openings; `crews[j]` who can do it, cheapest first, nobody when
    no plan has a place for it; `topological` an order of the links, `stage[j]` the turn that no
    search may change.
    """

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        jobs = problem.jobs
        self.size, self.horizon = len(jobs), problem.slots
        self.number = {job.id: j for j, job in enumerate(jobs)}
        self.work = [job.work for job in jobs]
        self.splits = [job.splits for job in jobs]
        self.earliest = [max(0, job.earliest) for job in jobs]
        self.pinned = [job.pinned for job in jobs]
        self.facts = frozenset(self.number[fact] for fact in problem.facts)
        self.before: list[list[Opening]] = [[] for _ in jobs]
        self.after: list[list[Opening]] = [[] for _ in jobs]
        self.roster = Roster(problem)
        looks = Looks(self.roster, problem.slots)
        for link in problem.links:
            first, then = self.number[link.before], self.number[link.after]
            ready = looks.opens(link, jobs[first])
            self.before[then].append((first, link.wait, ready))
            self.after[first].append((then, link.wait, ready))
        self.topological = self._topological()
        self.stage = self._stages()
        self.fold = self.roster.fold
        self.everything = (1 << self.fold.size) - 1
        self.stock = Stock(problem, self.everything)
        self.holds = Holds(self)
        never = self.stock.never | self.holds.never
        self.crews: list[list[Crew]] = [[] if j in never else self.roster.crews(job) for j, job in enumerate(jobs)]

    def _topological(self) -> list[int]:
        missing = [len(openings) for openings in self.before]
        order = [j for j in range(self.size) if not missing[j]]
        for j in order:
            for then, _, _ in self.after[j]:
                missing[then] -= 1
                if not missing[then]:
                    order.append(then)
        return order

    def _stages(self) -> list[int]:
        """The turn of each job: those in hand, then pinned ones by their start, then all others.

        What a job waits for has its turn no later than the job. A fact takes nobody's time: what is
        still to be done on a car that stands stripped has its turn by its urgency.
        """
        jobs = self.problem.jobs
        head = [j for j in range(self.size) if jobs[j].started]
        pinned = [(job.pinned, j) for j, job in enumerate(jobs) if job.pinned is not None and j not in self.facts]
        head += [j for _, j in sorted(pinned) if not jobs[j].started]
        stage = [len(head)] * self.size
        for turn, j in enumerate(head):
            for need in (j, *self.ancestors(j)):
                stage[need] = min(stage[need], turn)
        return stage

    def ancestors(self, job: int) -> set[int]:
        """All jobs that `job` waits for, at any distance."""
        ancestors: set[int] = set()
        reached = [job]
        while reached:
            for first, _, _ in self.before[reached.pop()]:
                if first not in ancestors:
                    ancestors.add(first)
                    reached.append(first)
        return ancestors

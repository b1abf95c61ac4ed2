"""Whose turn it is: what each job of a plan waits for by its links, people, stations and holds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise

from builds.planner.plan import Placed, Plan
from builds.planner.problem import Hold, Job, Problem
from builds.work.engine.working_order import working_order


class Turns:
    """The placed jobs in order of start, and for each the jobs it waits for, by place in the order.

    `waits[j]` (job, slots past its end), `cures[j]` (job, its table of ready slots), `plain[j]`
    jobs whose end is enough, without those that another of them waits for anyway; `places[j]`
    (station, units) for stations by number that take several jobs at once, `capacities` theirs.
    Every job stands after all it waits for. The plan must hold for the problem.
    """

    def __init__(self, problem: Problem, plan: Plan) -> None:
        self.rows = _in_order(problem, plan)
        self.number = {row.id: j for j, (_, row) in enumerate(self.rows)}
        count = len(self.rows)
        self.waits: list[list[tuple[int, int]]] = [[] for _ in range(count)]
        self.cures: list[list[tuple[int, tuple[int, ...]]]] = [[] for _ in range(count)]
        self.plain: list[list[int]] = [[] for _ in range(count)]
        self.places: list[list[tuple[int, int]]] = [[] for _ in range(count)]
        self.capacities: list[int] = []
        self._links(problem)
        self._people()
        self._stations(problem)
        for hold in problem.holds:
            self._hold(hold)
        self._thin_out()

    def _working(self) -> list[tuple[int, Job, Placed]]:
        """The jobs that take time, and so their people and stations, with their places."""
        return [(j, job, row) for j, (job, row) in enumerate(self.rows) if job.work]

    def _links(self, problem: Problem) -> None:
        for link in problem.links:
            if link.after not in self.number:
                continue
            first, then = self.number[link.before], self.number[link.after]
            if link.ready is not None:
                self.cures[then].append((first, link.ready))
            elif link.wait:
                self.waits[then].append((first, link.wait))
            else:
                self.plain[then].append(first)

    def _people(self) -> None:
        mine: dict[str, list[int]] = defaultdict(list)
        for j, _, row in self._working():
            for name in row.people:
                mine[name].append(j)
        self._one_after_the_other(mine.values())

    def _stations(self, problem: Problem) -> None:
        """One job at a time: each waits for the one before it. Room for several: they queue."""
        for station in problem.stations:
            users = [(j, job.uses.get(station.id, 0)) for j, job, _ in self._working()]
            users = [(j, units) for j, units in users if units]
            if sum(units for _, units in users) <= station.capacity:
                continue
            if sum(sorted(units for _, units in users)[:2]) > station.capacity:
                self._one_after_the_other([[j for j, _ in users]])
                continue
            for j, units in users:
                self.places[j].append((len(self.capacities), units))
            self.capacities.append(station.capacity)

    def _one_after_the_other(self, lines: Iterable[list[int]]) -> None:
        for line in lines:
            for first, then in pairwise(line):
                self.plain[then].append(first)

    def _hold(self, hold: Hold) -> None:
        """Other cars' jobs at the station end before the hold begins, or wait until it is over."""
        if hold.start not in self.number:
            return
        start, until = self.number[hold.start], self.number.get(hold.until)
        begun = self.rows[start][1].start
        for j, job, row in self._working():
            if job.vehicle != hold.vehicle and job.uses.get(hold.station):
                if row.end <= begun:
                    self.plain[start].append(j)
                elif until is not None and row.start >= self.rows[until][1].end:
                    self.plain[j].append(until)

    def _thin_out(self) -> None:
        """Drop what is waited for anyway, by way of another job waited for."""
        behind: list[int] = []
        for j, plain in enumerate(self.plain):
            others = [first for first, _ in (*self.waits[j], *self.cures[j])]
            implied = 0
            for first in others:
                implied |= behind[first] | 1 << first
            kept = set()
            for first in sorted(set(plain), reverse=True):
                if not implied >> first & 1:
                    kept.add(first)
                    implied |= behind[first] | 1 << first
            self.plain[j] = [first for first in dict.fromkeys(plain) if first in kept]
            behind.append(implied)


def _in_order(problem: Problem, plan: Plan) -> list[tuple[Job, Placed]]:
    """Placed jobs by start, then end; of those at one moment, the links decide."""
    jobs = {job.id: job for job in problem.jobs}
    rows = {row.id: row for row in plan.placed}
    linked = [(link.before, link.after) for link in problem.links]
    turn = {name: k for k, name in enumerate(working_order(dict.fromkeys(jobs, ()), linked))}
    order = sorted(rows, key=lambda name: (rows[name].start, rows[name].end, turn[name]))
    return [(jobs[name], rows[name]) for name in order]

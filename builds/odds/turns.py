"""Whose turn it is: what each job of a plan waits for by its links, people, stations and holds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from itertools import combinations, pairwise

from builds.odds.lines import LineMove, Lines
from builds.planner.plan import Placed, Plan
from builds.planner.problem import Hold, Job, Problem, Station
from builds.work.engine.working_order import working_order

Span = tuple[int, int | None]
"""The first and the last of jobs between which nothing else comes; no last one: to the horizon."""


class Turns:
    """The placed jobs in order of start, and for each the jobs it waits for, by place in the order.

    `waits[j]` (job, slots past its end), `cures[j]` (job, its table of ready slots), `plain[j]`
    jobs whose end is enough, without those that another of them waits for anyway. Stations that
    take several jobs at once are lines of places, `capacities` how many are in each at first:
    `places[j]` (line, units) are those it takes; before it, `moves[j]` go between lines, and
    `claims[j]`, for which it waits.
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
        self.moves: list[list[LineMove]] = [[] for _ in range(count)]
        self.claims: list[list[LineMove]] = [[] for _ in range(count)]
        self.capacities: list[int] = []
        self._links(problem)
        self._people()
        self._stations(problem)
        self._standing(problem)
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
        """One job at a time: each waits for the one before it. Room for several: they queue.

        A hold that was over before it began stays so.
        """
        for hold in self._held(problem):
            if hold.until in self.number:
                self._after(self.number[hold.start], self.number[hold.until])
        for station in problem.stations:
            users = [(j, job.uses.get(station.id, 0)) for j, job, _ in self._working()]
            users = [(j, units) for j, units in users if units]
            holds = [hold for hold in self._held(problem) if hold.station == station.id and hold.units]
            if sum(units for _, units in users) + sum(hold.units for hold in holds) <= station.capacity:
                continue
            if station.capacity == 1 or (not holds and _by_turns(users, station)):
                self._one_after_the_other([[j for j, _ in users]])
                self._held_by_turns([(j, j) for j, _ in users], holds)
                continue
            if holds:
                self._lines(Lines(self, station, holds, problem.slots), station.capacity)
                continue
            for j, units in users:
                self.places[j].append((len(self.capacities), units))
            self.capacities.append(station.capacity)

    def _one_after_the_other(self, lines: Iterable[list[int]]) -> None:
        for line in lines:
            for first, then in pairwise(line):
                self.plain[then].append(first)

    def _held(self, problem: Problem) -> list[Hold]:
        """The holds that begin in the plan."""
        return [hold for hold in problem.holds if hold.start in self.number]

    def _lines(self, lines: Lines, capacity: int) -> None:
        self.capacities += [capacity] + [0] * (lines.count - 1)
        for j, moves in lines.moves.items():
            self.moves[j] += moves
        for j, claim in lines.claims.items():
            self.claims[j].append(claim)
        for j, place in lines.places.items():
            self.places[j].append(place)

    def _held_by_turns(self, users: list[Span], holds: list[Hold]) -> None:
        """Other cars' jobs and holds end before a hold begins, or wait until it is over."""
        spans = [(self.number[hold.start], self.number.get(hold.until)) for hold in holds]
        for k, held in enumerate(spans):
            for other in (*users, *spans[k + 1 :]):
                if self.rows[other[0]][0].vehicle != holds[k].vehicle:
                    self._apart(held, other)

    def _standing(self, problem: Problem) -> None:
        """A car leaves the place it stands in before it stands in another."""
        stands = {station.id for station in problem.stations if station.stands}
        by_car: dict[str | None, list[tuple[str, Span]]] = defaultdict(list)
        for j, job, _ in self._working():
            by_car[job.vehicle] += [(name, (j, j)) for name in job.uses if name in stands]
        for hold in self._held(problem):
            if hold.station in stands:
                span = (self.number[hold.start], self.number.get(hold.until))
                by_car[hold.vehicle].append((hold.station, span))
        for mine in by_car.values():
            for (place, one), (elsewhere, other) in combinations(mine, 2):
                if place != elsewhere:
                    self._apart(one, other)

    def _apart(self, one: Span, other: Span) -> None:
        """Of two spans of jobs that may not overlap, the later one waits for the end of the other."""
        for (_, until), (then, _) in ((one, other), (other, one)):
            if until is not None:
                self._after(then, until)

    def _after(self, then: int, first: int) -> None:
        """A job waits for the end of another where it does so in the plan."""
        if first < then and self.rows[first][1].end <= self.rows[then][1].start:
            self.plain[then].append(first)

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


def _by_turns(users: list[tuple[int, int]], station: Station) -> bool:
    """Whether the station never takes two of its jobs at once."""
    return sum(sorted(units for _, units in users)[:2]) > station.capacity


def _in_order(problem: Problem, plan: Plan) -> list[tuple[Job, Placed]]:
    """Placed jobs by start, then end; of those at one moment, the links decide."""
    jobs = {job.id: job for job in problem.jobs}
    rows = {row.id: row for row in plan.placed}
    linked = [(link.before, link.after) for link in problem.links]
    turn = {name: k for k, name in enumerate(working_order(dict.fromkeys(jobs, ()), linked))}
    order = sorted(rows, key=lambda name: (rows[name].start, rows[name].end, turn[name]))
    return [(jobs[name], rows[name]) for name in order]

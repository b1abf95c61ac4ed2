"""A problem by number: jobs, links and stations as the placing pass walks them."""

from __future__ import annotations

from typing import NamedTuple

from .crews import Crew, Roster
from .problem import Problem

NEVER = 1 << 40
"""The end of a job without a place: later than any slot."""

PENDING = -1
"""The end of a job that a pass has not come to."""

Opening = tuple[int, int, tuple[int, ...] | None]
"""A link seen from one end: the other job, the wait, and the ready times if it has any."""


class Block(NamedTuple):
    """The jobs that a hold ties together.

    `members`: every job that the end of the hold waits for, and the same again for each hold begun
    among them; `leading`: those of them that do not wait for the start; `barred`: jobs that cannot
    be placed before the block is done; `held`: the holds begun in it.
    """

    members: frozenset[int]
    leading: frozenset[int]
    barred: frozenset[int]
    held: list[int]


class Model:
    """Jobs numbered in the order of the problem; every list is indexed by that number.

    `before[j]` and `after[j]` are openings; `crews[j]` who can do it, cheapest first; `room[j]` the
    rows of the stock of free slots that must be free for it whoever works on it; `books[j]`, as
    (first row, units, last unit), the stations to book; `topological` an order of the links,
    `stage[j]` the turn that no search may change.
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
        self.before: list[list[Opening]] = [[] for _ in jobs]
        self.after: list[list[Opening]] = [[] for _ in jobs]
        for link in problem.links:
            first, then = self.number[link.before], self.number[link.after]
            self.before[then].append((first, link.wait, link.ready))
            self.after[first].append((then, link.wait, link.ready))
        self.topological = self._topological()
        self.stage = self._stages()
        self.roster = Roster(problem)
        self.fold = self.roster.fold
        self.crews: list[list[Crew]] = [self.roster.crews(job) for job in jobs]
        self._stock()
        self._holds()

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

        What a job waits for has its turn no later than the job.
        """
        jobs = self.problem.jobs
        head = [j for j in range(self.size) if jobs[j].started]
        pinned = [(job.pinned, j) for j, job in enumerate(jobs) if job.pinned is not None]
        head += [j for _, j in sorted(pinned) if not jobs[j].started]
        stage = [len(head)] * self.size
        for turn, j in enumerate(head):
            for need in (j, *self.ancestors(j)):
                stage[need] = min(stage[need], turn)
        return stage

    def _stock(self) -> None:
        """Rows of free slots: one a person, then `capacity` a station (k-th: k units are free)."""
        jobs, people = self.problem.jobs, len(self.problem.people)
        asked = {row.id: 0 for row in self.problem.stations}
        for job in jobs:
            for name, units in job.uses.items():
                asked[name] += units
        self.rows = people
        first_row: dict[str, int] = {}
        capacity: dict[str, int] = {}
        for row in self.problem.stations:
            if asked[row.id] > row.capacity:
                first_row[row.id], capacity[row.id] = self.rows, row.capacity
                self.rows += row.capacity
        self.room: list[list[int]] = [[] for _ in jobs]
        self.books: list[list[tuple[int, int, int]]] = [[] for _ in jobs]
        for j, job in enumerate(jobs):
            for name, units in job.uses.items():
                if units and name in first_row:
                    if units > capacity[name] and job.work:
                        self.crews[j] = []
                        continue
                    first = first_row[name]
                    self.room[j].append(first + units - 1)
                    self.books[j].append((first, units, first + capacity[name]))

    def _holds(self) -> None:
        """Two more rows for each held station and each car on it: not held by others, not used.

        `shuts[h]` are the rows that hold h takes slots from, `clear[h]` those that must be free
        for it; `marks[j]` the rows of the second kind that job j takes slots from. Holds that keep
        nobody out are left aside.
        """
        problem = self.problem
        self.marks: list[list[int]] = [[] for _ in problem.jobs]
        users: dict[str, dict[str | None, list[int]]] = {hold.station: {} for hold in problem.holds}
        for j, job in enumerate(problem.jobs):
            for name, units in job.uses.items():
                if units and name in users:
                    users[name].setdefault(job.vehicle, []).append(j)
        row_of: dict[tuple[str, str | None], int] = {}
        for name, cars in users.items():
            for car, jobs in cars.items():
                row_of[name, car] = self.rows
                for j in jobs:
                    self.room[j].append(self.rows)
                    self.marks[j].append(self.rows + 1)
                self.rows += 2
        self.starts: list[int] = []
        self.ends: list[int] = []
        self.shuts: list[list[int]] = []
        self.clear: list[list[int]] = []
        barred: list[set[int]] = []
        for hold in problem.holds:
            others = [car for car in users[hold.station] if car != hold.vehicle]
            if others:
                self.starts.append(self.number[hold.start])
                self.ends.append(self.number[hold.until])
                self.shuts.append([row_of[hold.station, car] for car in others])
                self.clear.append([row + 1 for row in self.shuts[-1]])
                barred.append({j for car in others for j in users[hold.station][car]})
        self.blocks = {start: self._block(start, barred) for start in self.starts}

    def _block(self, start: int, barred: list[set[int]]) -> Block:
        """What is placed in one go with a job that a hold starts with."""
        members = {start}
        size = 0
        while len(members) > size:
            size = len(members)
            members |= {self.ends[h] for h, begin in enumerate(self.starts) if begin in members}
            members = members.union(*(self.ancestors(j) for j in members))
        held = [h for h, begin in enumerate(self.starts) if begin in members]
        return Block(
            frozenset(members),
            frozenset(j for j in members - {start} if start not in self.ancestors(j)),
            frozenset(set(self.starts).union(*(barred[h] for h in held))),
            held,
        )

    def ancestors(self, job: int) -> set[int]:
        """All jobs that `job` waits for, at any distance."""
        found: set[int] = set()
        reached = [job]
        while reached:
            for first, _, _ in self.before[reached.pop()]:
                if first not in found:
                    found.add(first)
                    reached.append(first)
        return found

"""One run: a garage that plans the rest again whenever a job ends or somebody comes, and learns by the clock.

- What a job takes is known when it is over; until then a job in hand is taken to need what is left of
  its work, at the least one slot more.
- At the start of each session, and in it whenever something has ended or opens, the rest is planned
  again, and what that plan begins at once is begun. A missed pinned start becomes one as soon as possible.
- Now and then, as a session begins, the plan's order is chosen anew: the one that has the fewest cars late.
- Whoever has begun a job keeps it, and its stations, until it is over. A job that may not be split
  is begun where its work fits and seen through, however late; others stop at the end of the hours.
- A car that cannot be moved keeps its places until the last job of the hold is over, and stands in
  one place at a time.
"""

from __future__ import annotations

from bisect import bisect_right, insort
from collections.abc import Sequence
from dataclasses import replace
from heapq import heapify, heappop, heappush

from builds.odds.again import Ahead
from builds.odds.moment import Moment
from builds.planner.axis import clip, joined
from builds.planner.crews import Crew
from builds.planner.model import NEVER, PENDING, Model
from builds.planner.problem import Problem

SESSIONS_AHEAD = 2
"""Sessions that a plan looks into: what waits for a job that ends later changes nothing now."""

LOOKS = 10
"""How often in a run, at the beginning of a session, it is asked whether another order of the list would do better."""


class Course:
    """Runs of a problem; jobs go by their number in it."""

    def __init__(self, problem: Problem) -> None:
        self.problem, self.model = problem, Model(replace(problem, before=()))
        model = self.model
        self.count = len(problem.jobs)
        self.plans = Ahead(model)
        hours = [clip(person.windows, problem.slots) for person in problem.people]
        self.sessions = sorted({0, *(begin for begin, _ in joined(hours))})
        self.begins = {*self.sessions[1:]}
        windows = [person.windows for person in problem.people] + [station.windows for station in problem.stations]
        windows += [job.windows for job in problem.jobs]
        opens = {begin for spans in windows for begin, _ in spans or ()}
        opens.update(model.earliest, (pin for pin in model.pinned if pin is not None))
        self.openings = sorted(opens)
        self.needed = [j for j, job in enumerate(problem.jobs) if job.vehicle is not None and job.must_do]
        self.uses = [[name for name, units in job.uses.items() if units and job.work] for job in problem.jobs]
        self.leaves = [[*stations] for stations in self.uses]
        for hold in problem.holds:
            self.leaves[model.number[hold.until]].append(hold.station)
        self.needs = [len(before) for before in model.before]
        self.first = [j for j, needs in enumerate(self.needs) if not needs]
        self.crew_of = [{crew.people: crew for crew in crews} for crews in self.plans.crews]

    def run(self, works: Sequence[int]) -> tuple[list[int], list[int]]:
        """One run in which job j takes `works[j]` slots: when each ended, and the job it began after.

        An end is NEVER past the horizon and for what was not needed any more; the cause is the job
        whose end, with its wait, came last of all that the job waited for, -1 for none.
        """
        self._clear(works)
        at, slots = 0, self.problem.slots
        while at < slots:
            self._finish(at)
            if not self.left:
                break
            if at in self.begins:
                self._choose(at)
            beyond = bisect_right(self.sessions, at) + SESSIONS_AHEAD - 1
            self._begin(at, self.sessions[beyond] if beyond < len(self.sessions) else NEVER)
            at = self._next(at)
        self._finish(slots)
        return [NEVER if end == PENDING else end for end in self.ends], self.causes

    def _clear(self, works: Sequence[int]) -> None:
        self.plans.clear()
        self.chosen = 0
        self.works, self.ends = works, [PENDING] * self.count
        self.causes = [-1] * self.count
        self.cleared: list[int] = []
        self.starts = [0] * self.count
        self.people: list[tuple[int, ...]] = [()] * self.count
        self.hand: list[tuple[int, int, Crew]] = []
        self.last_of: dict[int, int] = {}
        self.last_at: dict[str, int] = {}
        self.left = len(self.needed)
        self.missing = self.needs[:]
        self.ready = sorted(self.plans.turn[j] for j in range(self.count) if not self.missing[j])
        self.open, self.wakes = 0, [(self._opens(j), j) for j in self.first]
        heapify(self.wakes)
        self.kept: set[int] = set()

    def _choose(self, at: int) -> None:
        """Go on by the order whose plan of the rest is the best, if some jobs are over since that was asked."""
        plans, over = self.plans, self.count - self.ends.count(PENDING)
        if (over - self.chosen) * LOOKS < self.count:
            return
        self.chosen = over
        self._wake(at)
        hand = [(j, self._expected(j, at, crew), crew) for j, _, crew in self.hand]
        ready = [plans.order[turn] for turn in self.ready]
        opened = [j for j in ready if self.open >> plans.turn[j] & 1]
        plans.choose(Moment(at, self.ends, hand, 0, self.ready, self.open, sorted(self.kept), NEVER), ready)
        self.ready = sorted(plans.turn[j] for j in ready)
        self.open = sum(1 << plans.turn[j] for j in opened)

    def _begin(self, at: int, beyond: int) -> None:
        """Begin what the plan of this moment does; what takes no time may open more."""
        again = True
        while again:
            self._wake(at)
            idle = self.plans.idle(at, self.hand)
            if not self.open & self.plans.able(idle):
                return
            hand = [(j, self._expected(j, at, crew), crew) for j, _, crew in self.hand]
            begun = self.plans.next(Moment(at, self.ends, hand, idle, self.ready, self.open, sorted(self.kept), beyond))
            for j, people in begun:
                self._start(j, self.crew_of[j].get(people) or self.plans.crews[j][0], at)
            again = any(not self.model.work[j] for j, _ in begun)

    def _next(self, at: int) -> int:
        """The next slot in which something ends or opens: nothing that a plan has for later can begin before."""
        k = bisect_right(self.openings, at)
        ends = [end for _, end, _ in self.hand]
        wakes = [opens for opens, _ in self.wakes[:1]] + [slot for slot in self.cleared if slot > at]
        return min(ends + wakes + self.openings[k : k + 1], default=NEVER)

    def _wake(self, at: int) -> None:
        """Open what waits for nothing any more but people and places."""
        while self.wakes and self.wakes[0][0] <= at:
            self.open |= 1 << self.plans.turn[heappop(self.wakes)[1]]

    def _opens(self, j: int) -> int:
        """The first slot in which all that job j waits for by its links is over; NEVER when not known."""
        opens = max(self.model.earliest[j], self.plans.pins.get(j, 0))
        for first, wait, ready in self.model.before[j]:
            end = self.ends[first]
            if end == PENDING or end > self.problem.slots:
                return NEVER
            opens = max(opens, end + wait if ready is None else ready[end])
        return opens

    def _expected(self, j: int, at: int, crew: Crew) -> int:
        """When a job in hand is over by what is known of it."""
        model, start, slots = self.model, self.starts[j], self.problem.slots
        if not model.splits[j]:
            return min(slots, at + max(1, model.work[j] - (at - start)))
        axis, folded = crew.axis, model.fold.folded
        left = max(1, model.work[j] - (axis.rank[folded[at]] - axis.rank[folded[start]]))
        last = axis.last(folded[at], left)
        return slots if last is None else model.fold.real[last] + 1

    def _start(self, j: int, crew: Crew, at: int) -> None:
        model = self.model
        self.starts[j], self.causes[j], self.people[j] = at, self._cause(j, crew, at), crew.people
        self.ready.remove(self.plans.turn[j])
        self.open &= ~(1 << self.plans.turn[j])
        self.kept.update(self.plans.holds_from.get(j, ()))
        for then, _, _ in model.after[j]:
            self.missing[then] -= 1
            if not self.missing[then]:
                insort(self.ready, self.plans.turn[then])
        if not model.work[j]:
            self._over(j, at)
            return
        end: int = at + self.works[j]
        if model.splits[j]:
            last = crew.axis.last(model.fold.folded[at], self.works[j])
            end = NEVER if last is None else model.fold.real[last] + 1
        self.hand.append((j, end, crew))

    def _cause(self, j: int, crew: Crew, at: int) -> int:
        latest, cause = 0, -1
        for first, wait, ready in self.model.before[j]:
            opens = self.ends[first] + wait if ready is None else ready[self.ends[first]]
            if opens >= latest:
                latest, cause = opens, first
        others = [self.last_of[person] for person in crew.people if person in self.last_of]
        others += [self.last_at[name] for name in self.uses[j] if name in self.last_at]
        for other in others:
            if self.ends[other] > latest:
                latest, cause = self.ends[other], other
        return cause

    def _finish(self, at: int) -> None:
        """What is over by a slot."""
        if all(end > at for _, end, _ in self.hand):
            return
        over = sorted((job for job in self.hand if job[1] <= at), key=lambda job: job[1])
        self.hand = [job for job in self.hand if job[1] > at]
        for j, end, crew in over:
            for person in crew.people:
                self.last_of[person] = j
            self._over(j, end)

    def _over(self, j: int, end: int) -> None:
        self.ends[j] = end
        if clears := self.problem.jobs[j].clears:
            self.cleared.append(end + clears)
        self.last_at.update(dict.fromkeys(self.leaves[j], j))
        self.left -= self.problem.jobs[j].vehicle is not None and self.problem.jobs[j].must_do
        self.kept.difference_update(self.plans.holds_to.get(j, ()))
        for then, _, _ in self.model.after[j]:
            opens = self._opens(then)
            if opens < NEVER:
                heappush(self.wakes, (opens, then))

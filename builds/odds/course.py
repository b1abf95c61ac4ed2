"""One run: a garage that plans again at each session, begins what the plan has next, and learns by the clock.

- At the start of each session the rest is planned again. What a job takes is known when it is over;
  until then a job in hand is taken to need what is left of its work, at the least one slot more.
- In a session each job of the plan is begun as soon as all it waits for is over, its place is free
  and its people are; when those are not, others who can do it take it over. What could not be
  begun is left to the next plan, and so is what is planned for another day.
- Whoever has begun a job keeps it, and its stations, until it is over. A job that may not be split
  is begun where its work fits and seen through, however late; others stop at the end of the hours.
- A car that cannot be moved keeps its places until the last job of the hold is over, and stands in
  one place at a time. A pinned start that is missed becomes a start as soon as possible.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from builds.odds.again import InHand, Planned, QuickPlans, with_standing_cars
from builds.odds.yard import Yard
from builds.planner.axis import clip, joined
from builds.planner.crews import Crew
from builds.planner.model import NEVER, PENDING, Model
from builds.planner.problem import Problem


class Course:
    """Runs of a problem; jobs go by their number in it."""

    def __init__(self, problem: Problem) -> None:
        self.problem, self.model = problem, Model(with_standing_cars(problem))
        model = self.model
        self.count = len(problem.jobs)
        self.plans, self.yard = QuickPlans(model), Yard(problem, model)
        hours = [clip(person.windows, problem.slots) for person in problem.people]
        self.sessions = sorted({0, *(begin for begin, _ in joined(hours))})
        windows = [person.windows for person in problem.people] + [station.windows for station in problem.stations]
        windows += [job.windows for job in problem.jobs]
        self.openings = sorted({begin for spans in windows for begin, _ in spans or ()})
        self.needed = [j for j, job in enumerate(problem.jobs) if job.vehicle is not None and job.rank != "wanted"]
        self.first_plans: dict[int, list[Planned]] = {}
        self.standing = [self.count + h for h in range(len(problem.holds))]
        self.firsts = [model.number[hold.start] for hold in problem.holds]
        self.lasts = [model.number[hold.until] for hold in problem.holds]

    def run(self, works: Sequence[int]) -> tuple[list[int], list[int]]:
        """One run in which job j takes `works[j]` slots: when each ended, and the job it began after.

        An end is NEVER past the horizon and for what was not needed any more; the cause is the job
        whose end, with its wait, came last of all that the job waited for, -1 for none.
        """
        self.works, self.ends = works, [PENDING] * self.model.size
        self.causes = [-1] * self.count
        self.starts = [0] * self.count
        self.people: list[tuple[int, ...]] = [()] * self.count
        self.hand: list[tuple[int, int, Crew]] = []
        self.last_of: dict[int, int] = {}
        self.begun = False
        self.yard.clear()
        for at, until in zip(self.sessions, [*self.sessions[1:], self.problem.slots], strict=True):
            self._finish(at)
            if self._all_done():
                break
            self._session(at, until, self._planned(at, until))
        self._finish(self.problem.slots)
        return [NEVER if end == PENDING else end for end in self.ends[: self.count]], self.causes

    def _all_done(self) -> bool:
        ends = self.ends
        return all(ends[j] != PENDING for j in self.needed)

    def _planned(self, at: int, until: int) -> list[Planned]:
        """What the plan of a session begins in it; before anything has begun it is the same in every run."""
        if self.begun:
            return self._plan(at, until)
        if at not in self.first_plans:
            self.first_plans[at] = self._plan(at, until)
        return self.first_plans[at]

    def _plan(self, at: int, until: int) -> list[Planned]:
        ends, begun = self.ends[:], {j for j, _, _ in self.hand}
        for fact, first, last in zip(self.standing, self.firsts, self.lasts, strict=True):
            ends[fact] = PENDING if (first in begun or ends[first] != PENDING) and ends[last] == PENDING else 0
        hand: list[InHand] = [(j, self._expected(j, at, crew), crew) for j, _, crew in self.hand]
        return [planned for planned in self.plans.plan(at, until, ends, hand) if planned[2] < self.count]

    def _expected(self, j: int, at: int, crew: Crew) -> int:
        """When a job in hand is over by what is known of it."""
        model, start, slots = self.model, self.starts[j], self.problem.slots
        if not model.splits[j]:
            return min(slots, at + max(1, model.work[j] - (at - start)))
        axis, folded = crew.axis, model.fold.folded
        left = max(1, model.work[j] - (axis.rank[folded[at]] - axis.rank[folded[start]]))
        last = axis.last(folded[at], left)
        return slots if last is None else model.fold.real[last] + 1

    def _session(self, at: int, until: int, agenda: list[Planned]) -> None:
        """Begin what was planned, in the order of the plan, whenever something has changed."""
        while agenda and at < until:
            waiting: list[Planned] = []
            for planned in agenda:
                crew = self._crew(planned[2], planned[3], at)
                if crew is None:
                    waiting.append(planned)
                else:
                    self._start(planned[2], crew, at)
            if len(waiting) < len(agenda) and any(not self.model.work[planned[2]] for planned in agenda):
                agenda = waiting
                continue
            agenda = waiting
            at = self._next(at, agenda)
            self._finish(at)

    def _next(self, at: int, agenda: list[Planned]) -> int:
        """The next slot in which something ends or opens."""
        k = bisect_right(self.openings, at)
        later = [end for _, end, _ in self.hand]
        later += [opens for planned in agenda if (opens := self._opens(planned[2])) > at]
        later += self.openings[k : k + 1]
        return min(later, default=NEVER)

    def _opens(self, j: int) -> int:
        """The first slot in which all that job j waits for by its links is over."""
        opens = max(self.model.earliest[j], self.model.pinned[j] or 0)
        for first, wait, ready in self.model.before[j]:
            if first >= self.count:
                continue
            end = self.ends[first]
            if end == PENDING or end > self.problem.slots:
                return NEVER
            opens = max(opens, end + wait if ready is None else ready[end])
        return opens

    def _crew(self, j: int, people: tuple[int, ...], at: int) -> Crew | None:
        """Who can begin the job now: those of the plan, or else others; None for nobody."""
        model = self.model
        if self._opens(j) > at:
            return None
        crews = model.crews[j]
        if not model.work[j]:
            return crews[0]
        if not self.yard.room(j):
            return None
        slot, work = model.fold.folded[at], model.work[j]
        busy = self.busy
        mine: Crew | None = None
        for crew in crews:
            if not crew.axis.open >> slot & 1 or not busy.isdisjoint(crew.people):
                continue
            if not model.splits[j] and (crew.axis.open >> slot) & ((1 << work) - 1) != (1 << work) - 1:
                continue
            if crew.people == people:
                return crew
            mine = mine or crew
        return mine

    @property
    def busy(self) -> set[int]:
        return {person for _, _, crew in self.hand for person in crew.people}

    def _start(self, j: int, crew: Crew, at: int) -> None:
        model, self.begun = self.model, True
        self.starts[j], self.people[j] = at, crew.people
        self.causes[j] = self._cause(j, crew, at)
        self.yard.begin(j)
        if not model.work[j]:
            self.ends[j] = at
            self.yard.end(j)
            return
        if model.splits[j]:
            last = crew.axis.last(model.fold.folded[at], self.works[j])
            end = NEVER if last is None else model.fold.real[last] + 1
        else:
            end = at + self.works[j]
        self.hand.append((j, end, crew))

    def _cause(self, j: int, crew: Crew, at: int) -> int:
        latest, cause = 0, -1
        for first, wait, ready in self.model.before[j]:
            if first < self.count:
                opens = self.ends[first] + wait if ready is None else ready[self.ends[first]]
                if opens >= latest:
                    latest, cause = opens, first
        others = [self.last_of[person] for person in crew.people if person in self.last_of]
        for other in (*others, *self.yard.left_by(j)):
            if self.ends[other] > latest:
                latest, cause = self.ends[other], other
        return cause

    def _finish(self, at: int) -> None:
        """What is over by a slot."""
        if all(end > at for _, end, _ in self.hand):
            return
        still = []
        for j, end, crew in sorted(self.hand, key=lambda job: job[1]):
            if end > at:
                still.append((j, end, crew))
                continue
            self.ends[j] = end
            self.yard.end(j)
            for person in crew.people:
                self.last_of[person] = j
        self.hand = still

"""A plan as it would really go: who waits for whom, walked once for every run.

A run keeps what people agreed on: who works on what, in which order each person takes the jobs,
in which order cars come onto a station, whose turn it is while a car cannot be moved. It lets go
of the clock: a job begins as soon as all it waits for is over and its people are in. So:

- links with their waits and cures, earliest and pinned starts hold (a pinned start that is missed
  becomes a start as soon as possible), and so do all hours;
- a station that takes several jobs at once gives a place to the next job of the plan's order when
  one comes free, and no job goes before its turn; a car that cannot be moved keeps its own;
- a car leaves the place it stands in before it stands in another;
- nobody is sent home and no job changes hands, so a run can be late where a new plan would not be.

With every job taking what the plan gives it, no job ends later than in the plan; some end sooner,
where the plan left a gap.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Sequence
from math import ceil

from builds.odds.hours import NEVER, Hours, Sittings
from builds.odds.lines import FREE
from builds.odds.turns import Turns
from builds.planner.axis import clip, overlap
from builds.planner.check import faults
from builds.planner.fields import Windows
from builds.planner.plan import Placed, Plan
from builds.planner.problem import Job, Problem


class Course:
    """The placed jobs in the plan's order; every list is indexed by place in that order.

    ValueError for a plan that does not hold for the problem. Moments are minutes from slot 0.
    """

    def __init__(self, problem: Problem, plan: Plan) -> None:
        wrong = faults(problem, plan)
        if wrong:
            raise ValueError(f"The plan does not hold for this problem: {wrong[0]}")
        self.slot_minutes = problem.slot_minutes
        self.horizon = problem.slots * problem.slot_minutes
        self.turns = Turns(problem, plan)
        self.jobs = [job for job, _ in self.turns.rows]
        self.planned = [job.work * self.slot_minutes for job in self.jobs]
        self.hours = self._hours(problem)
        # A hold that finds no end begins at the horizon, if at all, and must not begin sooner in a run.
        begun = [row.start if row.start == problem.slots else 0 for _, row in self.turns.rows]
        opens = [max(at, job.earliest, job.pinned or 0) for at, job in zip(begun, self.jobs, strict=True)]
        self.earliest = [float(at * self.slot_minutes) for at in opens]
        self._steps = [
            (
                self.earliest[j],
                [(first, wait * self.slot_minutes) for first, wait in self.turns.waits[j]],
                self.turns.cures[j],
                self.turns.plain[j],
                self.turns.moves[j],
                self.turns.claims[j],
                self.turns.places[j],
                self.hours[j].end,
            )
            for j in range(len(self.jobs))
        ]

    def walk(self, works: Sequence[float]) -> tuple[list[float], list[float], list[int]]:
        """One run with `works[j]` minutes for job j: when each could begin, ended, and its cause.

        The cause is the job whose end (with its wait) was the last thing waited for, -1 when it
        was none: of two at the same moment a wait before a cure, a cure before a link without
        one, that before a person, a person before a station.
        """
        opened: list[float] = []
        ends: list[float] = []
        causes: list[int] = []
        queues = [[FREE] * capacity for capacity in self.turns.capacities]
        for work, (at, waits, cures, plain, moves, claims, places, end) in zip(works, self._steps, strict=True):
            cause = -1
            for first, wait in waits:
                if ends[first] + wait > at:
                    at, cause = ends[first] + wait, first
            for first, ready in cures:
                if (opens := self._cured(ready, ends[first])) > at:
                    at, cause = opens, first
            for first in plain:
                if ends[first] > at:
                    at, cause = ends[first], first
            for move in moves:
                move.make(queues, ends)
            for claim in claims:
                free, last = claim.make(queues, ends)
                if free > at:
                    at, cause = free, last
            for queue, units in places:
                free, last = queues[queue][units - 1]
                if free > at:
                    at, cause = free, last
            over = end(at, work)
            for queue, units in places:
                line = queues[queue]
                del line[:units]
                for _ in range(units):
                    insort(line, (over, len(ends)))
            opened.append(at)
            ends.append(over)
            causes.append(cause)
        return opened, ends, causes

    def _cured(self, ready: Sequence[int], end: float) -> float:
        """When a cure begun at `end` is over, by the table for the slot that follows."""
        if end > self.horizon:
            return NEVER
        return ready[ceil(end / self.slot_minutes)] * self.slot_minutes

    def _hours(self, problem: Problem) -> list[Hours | Sittings]:
        """The hours of each job with its people at its stations; jobs that share them share one."""
        people = {row.id: clip(row.windows, problem.slots) for row in problem.people}
        stations = {row.id: clip(row.windows, problem.slots) for row in problem.stations}
        made: dict[tuple[Windows, int | None], Hours | Sittings] = {}

        def hours(job: Job, row: Placed) -> Hours | Sittings:
            spans = clip(job.windows, problem.slots)
            for name in row.people:
                spans = overlap(spans, people[name])
            for name in job.uses:
                spans = overlap(spans, stations[name])
            sitting = None if job.splits or not job.work else job.work
            if (spans, sitting) not in made:
                made[spans, sitting] = (
                    Hours(spans, self.slot_minutes)
                    if sitting is None
                    else Sittings(spans, self.slot_minutes, sitting * self.slot_minutes)
                )
            return made[spans, sitting]

        return [hours(job, row) for job, row in self.turns.rows]

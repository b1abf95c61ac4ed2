"""What a change is judged by: how late the car is in its plan, or in how many runs it is in time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice
from math import ceil

from builds.odds.estimates import Figures
from builds.odds.simulate import runs
from builds.odds.words import MAKES_IT
from builds.planner.plan import Plan
from builds.planner.problem import Problem
from builds.remedies.engine.standing import standing

FEWEST, MOST = 20, 100
"""Runs of the odds for a change that may do."""

PART = 4
"""One of so many runs comes first: a change that is no better after those is left."""


class ByPlan:
    """By the plan: the gap is in slots."""

    is_quick = True

    def __init__(self, vehicle: str) -> None:
        self.vehicle = vehicle

    def gap(self, problem: Problem, plan: Plan) -> int:
        """Slots late, all late jobs of the car added up; one without a place is a whole plan late."""
        now = standing(problem, plan, self.vehicle)
        return now.late + len(now.unplaced) * problem.slots

    def gap_now(self, problem: Problem, plan: Plan) -> int:
        """The gap as things are."""
        return self.gap(problem, plan)

    def in_time(self, gap: int) -> int | None:
        """None: no odds are asked."""
        return None


class ByOdds:
    """By the odds: the gap is in runs of `runs` that are still to be in time, for 8 of 10 and more than `now`.

    Every problem gets the same luck, so that two of them differ by what they are. `estimates` are
    minutes by job, `shared` the deviation that all lengths have in common. Not quick: what does it is
    told as it was tried, and not made smaller.
    """

    is_quick = False

    def __init__(
        self, problem: Problem, vehicle: str, estimates: Mapping[str, Figures], shared: float, runs: int = MOST
    ) -> None:
        self.vehicle, self.estimates, self.shared = vehicle, estimates, shared
        self.runs = max(FEWEST, min(MOST, runs))
        self.some = self.runs // PART
        self.at_first, self.now = self._counts(problem)
        self.need = max(ceil(MAKES_IT * self.runs), self.now + 1)
        self.last = self.now

    def gap(self, problem: Problem, plan: Plan) -> int:
        """A change that leaves the first runs no better counts as none."""
        counts = self._counts(problem)
        better = next(counts) > self.at_first or self.at_first == self.some
        self.last = next(counts) if better else self.now
        return max(0, self.need - self.last)

    def gap_now(self, problem: Problem, plan: Plan) -> int:
        """The gap as things are, as it was counted at first."""
        return self.need - self.now

    def in_time(self, gap: int) -> int | None:
        """The runs in which the car is in time, by the gap; without one, those of what was tried last."""
        return self.need - gap if gap else self.last

    def _counts(self, problem: Problem) -> Iterator[int]:
        """The runs in time, of the first ones and then of all."""
        for tally in islice(runs(problem, self.estimates, shared=self.shared), self.runs):
            if tally.runs in (self.some, self.runs):
                yield tally.in_time(self.vehicle)

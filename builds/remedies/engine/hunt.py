"""Finds what would get a car there by trying: single changes, then two together, then more."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from time import perf_counter

from builds.planner.plan import Plan
from builds.planner.problem import Problem, Promise
from builds.planner.search import plan as planned
from builds.remedies.engine.changes.change import Change
from builds.remedies.engine.groups import Tried, pairs
from builds.remedies.engine.remedy import Attempt, Remedy, Trying
from builds.remedies.engine.standing import CarStanding, late_wanted, missing_cars, standing, worked_between

TRIES = 40
"""Lists that are placed for one attempt: the rules, the plan before, and a first crowd."""

MOST_OF_A_KIND = 2
"""Changes of one kind that are told; more of the same would tell nothing new."""

MOST_GROUPS, MOST_TOGETHER, MOST_ADDED = 3, 4, 40
"""Groups that work that are told, how many changes go together, and how many are tried as one more."""


class Hunt:
    """Tries `changes` in an order that nothing but the problem decides, so that it can be taken up again.

    Every attempt is planned with as many lists from the same `seed`.
    """

    def __init__(
        self, problem: Problem, plan: Plan, vehicle: str, changes: Iterable[Change] = (), *, seed: int = 1
    ) -> None:
        before = tuple(Promise(placed.id, placed.start, placed.people) for placed in plan.placed)
        self.problem, self.plan = replace(problem, before=before), plan
        self.vehicle, self.seed = vehicle, seed
        self.missing, self.late = missing_cars(problem, plan), late_wanted(problem, plan)
        useful = (change for change in changes if not change.gives_up(vehicle))
        self.singles = sorted(useful, key=lambda change: change.effort)
        self.memory: Iterator[int] = iter(())
        self.done = self.of = 0

    def go_on(self, known: Sequence[int] = (), *, seconds: float) -> Trying:
        """Try until the time is over; the gaps of the first attempts may be `known` from a while before.

        One attempt is made even where no time is left. A plan in which the car is in time already is
        its own remedy, and no remedy at all means that nothing tried does it.
        """
        begun, over = perf_counter(), True
        remedies, gaps, done, of = [], list(known), 0, 0
        for attempt in self.run(known):
            done, of = attempt.done, attempt.of
            if done <= len(known):
                continue
            gaps.append(attempt.gap)
            if attempt.remedy:
                remedies.append(attempt.remedy)
            if perf_counter() - begun >= seconds:
                over = False
                break
        remedies.sort(key=lambda remedy: remedy.rank)
        return Trying(tuple(remedies), tuple(gaps), done, of, over)

    def run(self, known: Sequence[int] = ()) -> Iterator[Attempt]:
        """Every attempt in turn; the gaps of the first ones may be `known` from a run before."""
        now = standing(self.problem, self.plan, self.vehicle)
        if now.makes_it:
            yield Attempt((), 0, 1, 1, self._remedy((), self.problem, self.plan))
            return
        self.memory, self.done, self.of = iter(known), 0, 0
        tried: Tried = []
        for attempt in self._attempts(self._fresh(tried), len(self.singles)):
            tried.append((attempt.gap, attempt.changes[0]))
            yield attempt
        if all(gap for gap, _ in tried):
            yield from self._together(tried, _gap(self.problem, now))

    def _fresh(self, tried: Tried) -> Iterator[tuple[Change, ...]]:
        """Single changes, those left out that could tell nothing new by what was tried so far."""
        for change in self.singles:
            if not _tells_nothing_new(change, [other for gap, other in tried if not gap]):
                yield (change,)

    def _together(self, tried: Tried, now: int) -> Iterator[Attempt]:
        """Two at a time, then one more to those that came nearest, for as long as that helps."""
        nearest = sorted(tried, key=lambda pair: (pair[0], pair[1].effort))
        groups, best = pairs(nearest, now), None
        while groups:
            told = 0
            for attempt in self._attempts(groups, len(groups)):
                yield attempt
                best = attempt if best is None or attempt.gap < best.gap else best
                told += not attempt.gap
                if told == MOST_GROUPS:
                    return
            size = len(groups[0])
            if told or best is None or len(best.changes) < size or size == MOST_TOGETHER:
                return
            more = [change for _, change in nearest if change.joins(best.changes)]
            groups = [(*best.changes, change) for change in more[:MOST_ADDED]]

    def _attempts(self, groups: Iterable[tuple[Change, ...]], count: int) -> Iterator[Attempt]:
        self.of += count
        for changes in groups:
            self.done += 1
            gap, remedy = next(self.memory, None), None
            if gap is None:
                gap, remedy = self._attempt(changes)
            yield Attempt(changes, gap, self.done, self.of, remedy)

    def _attempt(self, changes: tuple[Change, ...]) -> tuple[int, Remedy | None]:
        """The gap after the changes, and the remedy when it is none: as small as it still works."""
        problem, plan, gap = self.tried(changes)
        if gap:
            return gap, None
        smaller = self._smaller(changes, plan)
        while (less := next(smaller, None)) is not None:
            less_problem, less_plan, gap = self.tried(less)
            if not gap:
                changes, problem, plan = less, less_problem, less_plan
                smaller = self._smaller(changes, plan)
        return 0, self._remedy(changes, problem, plan)

    def tried(self, changes: tuple[Change, ...]) -> tuple[Problem, Plan, int]:
        """The problem with the changes, its plan, and how far off the car then is in slots."""
        problem = self.problem
        for change in changes:
            problem = change.apply(problem)
        plan = planned(problem, tries=TRIES, seed=self.seed)
        return problem, plan, _gap(problem, standing(problem, plan, self.vehicle))

    def _smaller(self, changes: tuple[Change, ...], plan: Plan) -> Iterator[tuple[Change, ...]]:
        for k, change in enumerate(changes):
            if len(changes) > 2:  # two are only tried when one does not do
                yield (*changes[:k], *changes[k + 1 :])
            for less in change.smaller(plan):
                yield (*changes[:k], less, *changes[k + 1 :])

    def _remedy(self, changes: tuple[Change, ...], problem: Problem, plan: Plan) -> Remedy:
        now = standing(problem, plan, self.vehicle)
        ready = now.ready or 0
        put_off = {name for change in changes for name in change.puts_off()}
        return Remedy(
            changes,
            ready=ready,
            spare=0 if now.due is None else worked_between(problem, ready, now.due),
            misses=tuple(sorted(missing_cars(problem, plan) - {self.vehicle} - self.missing)),
            late=tuple(sorted(late_wanted(problem, plan) - self.late - put_off)),
            problem=problem,
            plan=plan,
        )


def _gap(problem: Problem, now: CarStanding) -> int:
    """Slots late, all late jobs of the car added up; one without a place is a whole plan late."""
    return now.late + len(now.unplaced) * problem.slots


def _tells_nothing_new(change: Change, works: list[Change]) -> bool:
    """Enough of its kind work, or it asks for more than what is known to do."""
    alike = sum(other.kind == change.kind for other in works)
    return alike >= MOST_OF_A_KIND or any(change.asks_more_than(other) for other in works)

"""Finds what would get a car there by trying: single changes, then two together, then more."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from time import perf_counter

from builds.planner.plan import Plan
from builds.planner.problem import Problem, Promise
from builds.planner.search import plan as planned
from builds.remedies.engine.changes.change import Change, changed
from builds.remedies.engine.groups import Tried, pairs
from builds.remedies.engine.judges import ByOdds, ByPlan
from builds.remedies.engine.remedy import Attempt, Remedy, Trying
from builds.remedies.engine.standing import late_wanted, missing_cars, standing, worked_between

TRIES = 40
"""Lists that are placed for one attempt: the rules, the plan before, and a first crowd."""

MOST_OF_A_KIND = 2
"""Changes of one kind that are told; more of the same would tell nothing new."""

MOST_GROUPS, MOST_TOGETHER, MOST_ADDED = 3, 4, 40
"""Groups that work that are told, how many changes go together, and how many are tried as one more."""


class Hunt:
    """Tries `changes` in an order that nothing but the problem decides, so that it can be taken up again.

    Every attempt is planned with as many lists from the same `seed`, and judged by `judge`: the plan
    where that is late, the odds where it is in time and too few of the runs are.
    """

    def __init__(
        self,
        problem: Problem,
        plan: Plan,
        vehicle: str,
        changes: Iterable[Change] = (),
        *,
        judge: ByPlan | ByOdds | None = None,
        seed: int = 1,
    ) -> None:
        before = tuple(Promise(placed.id, placed.start, placed.people) for placed in plan.placed)
        self.problem, self.plan = replace(problem, before=before), plan
        self.vehicle, self.seed, self.judge = vehicle, seed, judge or ByPlan(vehicle)
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
        attempts: list[Attempt] = []
        for attempt in self.run(known):
            attempts.append(attempt)
            if attempt.done > len(known) and perf_counter() - begun >= seconds:
                over = False
                break
        remedies = sorted((tried.remedy for tried in attempts if tried.remedy), key=lambda remedy: remedy.rank)
        gaps = (*known, *(tried.gap for tried in attempts[len(known) :]))
        done, of = (attempts[-1].done, attempts[-1].of) if attempts else (0, 0)
        together = max((len(tried.changes) for tried in attempts), default=0)
        return Trying(tuple(remedies), gaps, done, of, together, self._nearest(attempts), over)

    def _nearest(self, attempts: Sequence[Attempt]) -> Remedy | None:
        """What comes nearest of what was tried, if none of it does and it is better than nothing."""
        best = min(attempts, key=lambda tried: tried.gap, default=None)
        if best is None or not 0 < best.gap < self.judge.gap_now(self.problem, self.plan):
            return None
        problem = changed(self.problem, best.changes)
        return self._remedy(best.changes, problem, self._planned(problem), best.gap)

    def run(self, known: Sequence[int] = ()) -> Iterator[Attempt]:
        """Every attempt in turn; the gaps of the first ones may be `known` from a run before."""
        now = self.judge.gap_now(self.problem, self.plan)
        if not now:
            yield Attempt((), 0, 1, 1, self._remedy((), self.problem, self.plan))
            return
        self.memory, self.done, self.of = iter(known), 0, 0
        tried: Tried = []
        for attempt in self._attempts(self._fresh(tried), len(self.singles)):
            tried.append((attempt.gap, attempt.changes[0]))
            yield attempt
        if all(gap for gap, _ in tried):
            yield from self._together(tried, now)

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
        smaller = self._smaller(changes, plan) if self.judge.is_quick else iter(())
        while (less := next(smaller, None)) is not None:
            less_problem, less_plan, gap = self.tried(less)
            if not gap:
                changes, problem, plan = less, less_problem, less_plan
                smaller = self._smaller(changes, plan)
        return 0, self._remedy(changes, problem, plan)

    def remedy_of(self, changes: tuple[Change, ...]) -> Remedy | None:
        """These changes as they are; None where they do not do it."""
        problem, plan, gap = self.tried(changes)
        return None if gap else self._remedy(changes, problem, plan)

    def tried(self, changes: tuple[Change, ...]) -> tuple[Problem, Plan, int]:
        """The problem with the changes, its plan, and how far off the car then is in slots."""
        problem = changed(self.problem, changes)
        plan = self._planned(problem)
        return problem, plan, self.judge.gap(problem, plan)

    def _planned(self, problem: Problem) -> Plan:
        return planned(problem, tries=TRIES, seed=self.seed)

    def _smaller(self, changes: tuple[Change, ...], plan: Plan) -> Iterator[tuple[Change, ...]]:
        for k, change in enumerate(changes):
            if len(changes) > 2:  # two are only tried when one does not do
                yield (*changes[:k], *changes[k + 1 :])
            for less in change.smaller(plan):
                yield (*changes[:k], less, *changes[k + 1 :])

    def _remedy(self, changes: tuple[Change, ...], problem: Problem, plan: Plan, gap: int = 0) -> Remedy:
        now = standing(problem, plan, self.vehicle)
        ready = now.ready or 0
        put_off = {name for change in changes for name in change.puts_off()}
        return Remedy(
            changes,
            ready=ready,
            spare=0 if now.due is None else worked_between(problem, ready, now.due),
            in_time=self.judge.in_time(gap),
            misses=tuple(sorted(missing_cars(problem, plan) - {self.vehicle} - self.missing)),
            late=tuple(sorted(late_wanted(problem, plan) - self.late - put_off)),
            problem=problem,
            plan=plan,
        )


def _tells_nothing_new(change: Change, works: list[Change]) -> bool:
    """Enough of its kind work, or it asks for more than what is known to do."""
    alike = sum(other.kind == change.kind for other in works)
    return alike >= MOST_OF_A_KIND or any(change.asks_more_than(other) for other in works)

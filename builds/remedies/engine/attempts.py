"""Finds what would get a car there by trying: single changes, then two together, then more."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from time import perf_counter

from builds.planner.plan import Plan
from builds.planner.problem import Problem, Promise
from builds.planner.search import plan as planned
from builds.planner.words import Names, When, slot_number
from builds.remedies.engine.candidates import candidates
from builds.remedies.engine.changes import Change, Defer, Sooner, StayHome
from builds.remedies.engine.standing import CarStanding, late_wanted, missing_cars, standing, worked_between

TRIES = 40
"""Lists that are placed for one attempt: the rules, the plan before, and a first crowd."""

MOST_OF_A_KIND = 2
"""Changes of one kind that are told; more of the same would tell nothing new."""

SHORTLIST, MOST_GROUPS, MOST_TOGETHER, MOST_ADDED = 7, 3, 4, 40
"""Changes that are tried together, how many that work are told, how many go
together, and how many are tried as one more."""


@dataclass(frozen=True, slots=True)
class Remedy:
    """Changes that get the car there: none means that a better order of the same work does.

    `ready` is the slot in which the car is ready, `spare` the slots between that and its due slot
    in which somebody is in. `misses` and `saves` are the other cars (ids) that then miss their
    event or make it, as they did not before; `late` the wanted jobs (ids) that then are late, those
    put off left out. `problem` and `plan` are what was tried and found, `sentence` what to do.
    """

    changes: tuple[Change, ...]
    ready: int
    spare: int
    misses: tuple[str, ...]
    saves: tuple[str, ...]
    late: tuple[str, ...]
    problem: Problem
    plan: Plan
    sentence: str

    @property
    def effort(self) -> float:
        """Hours of trouble, see changes.py."""
        return sum(change.effort for change in self.changes)

    @property
    def rank(self) -> tuple[float, ...]:
        """The order in which remedies are told: least effort, least harm, most to spare."""
        return (self.effort, len(self.misses), len(self.late), -self.spare)


@dataclass(frozen=True, slots=True)
class Attempt:
    """One thing tried. `gap` is how far off it is in slots, 0 when the car makes it; `done` of
    `of` things are then tried. `remedy` when it does it, unless that was known before.
    """

    changes: tuple[Change, ...]
    gap: int
    done: int
    of: int
    remedy: Remedy | None = None


class Hunt:
    """Tries in an order that nothing but the problem decides, so that it can be taken up again."""

    def __init__(
        self,
        problem: Problem,
        plan: Plan,
        vehicle: str,
        offers: Sequence[Change] = (),
        when: When = slot_number,
        seed: int = 1,
    ) -> None:
        before = tuple(Promise(row.id, row.start, row.people) for row in plan.placed)
        self.problem, self.plan = replace(problem, before=before), plan
        self.vehicle, self.when, self.seed = vehicle, when, seed
        self.missing, self.late = missing_cars(problem, plan), late_wanted(problem, plan)
        found = (*candidates(problem, plan, vehicle), *offers)
        useful = (row for row in found if not _gives_up(row, vehicle))
        self.singles = sorted(useful, key=lambda change: change.effort)
        self.memory: Iterator[int] = iter(())
        self.done = self.of = 0

    def run(self, known: Sequence[int] = ()) -> Iterator[Attempt]:
        """Every attempt in turn; the gaps of the first ones may be `known` from a run before."""
        now = standing(self.problem, self.plan, self.vehicle)
        if now.makes_it:
            yield Attempt((), 0, 1, 1, self._remedy((), self.problem, self.plan))
            return
        self.memory, self.done, self.of = iter(known), 0, 0
        tried: list[tuple[int, Change]] = []
        for attempt in self._each(self._fresh(tried), len(self.singles)):
            tried.append((attempt.gap, attempt.changes[0]))
            yield attempt
        if all(gap for gap, _ in tried):
            yield from self._together(tried, _gap(self.problem, now))

    def _fresh(self, tried: list[tuple[int, Change]]) -> Iterator[tuple[Change, ...]]:
        """Single changes, those left out that could tell nothing new by what was tried so far."""
        for change in self.singles:
            if not _tells_nothing_new(change, [row for gap, row in tried if not gap]):
                yield (change,)

    def _together(self, tried: list[tuple[int, Change]], now: int) -> Iterator[Attempt]:
        """Two at a time, then one more to those that came nearest, for as long as that helps."""
        nearest = sorted(tried, key=lambda pair: (pair[0], pair[1].effort))
        groups, best = _pairs(_shortlist(nearest, now)), None
        while groups:
            told = 0
            for attempt in self._each(groups, len(groups)):
                yield attempt
                best = attempt if best is None or attempt.gap < best.gap else best
                told += not attempt.gap
                if told == MOST_GROUPS:
                    return
            size = len(groups[0])
            if told or best is None or len(best.changes) < size or size == MOST_TOGETHER:
                return
            more = [change for _, change in nearest if _joins(change, best.changes)]
            groups = [(*best.changes, change) for change in more[:MOST_ADDED]]

    def _each(self, groups: Iterable[tuple[Change, ...]], count: int) -> Iterator[Attempt]:
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
            tried = self.tried(less)
            if not tried[2]:
                changes, (problem, plan, _) = less, tried
                smaller = self._smaller(changes, plan)
        return 0, self._remedy(changes, problem, plan)

    def tried(self, changes: tuple[Change, ...]) -> tuple[Problem, Plan, int]:
        """The problem with the changes, its plan, and how far off the car then is in slots."""
        problem = self.problem
        for change in changes:
            problem = change.apply(problem)
        plan = planned(problem, tries=TRIES, seed=self.seed, when=self.when)
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
        missing = missing_cars(problem, plan) - {self.vehicle}
        off = {name for change in changes if isinstance(change, Defer) for name in change.jobs}
        names = Names(problem)
        return Remedy(
            changes,
            ready=ready,
            spare=0 if now.due is None else worked_between(problem, ready, now.due),
            misses=tuple(sorted(missing - self.missing)),
            saves=tuple(sorted(self.missing - missing - {self.vehicle})),
            late=tuple(sorted(late_wanted(problem, plan) - self.late - off)),
            problem=problem,
            plan=plan,
            sentence=" ".join(change.words(names, self.when) for change in changes)
            or "A better order of the same work.",
        )


def remedies(
    problem: Problem,
    plan: Plan,
    vehicle: str,
    *,
    offers: Sequence[Change] = (),
    when: When = slot_number,
    seconds: float = 10,
    seed: int = 1,
    stop: Callable[[], bool] | None = None,
) -> tuple[Remedy, ...]:
    """What gets the car (an id) that is late in `plan` there in time, the least effort first.

    Every change is planned with as many lists, so the same seed gives the same answer unless
    `seconds` are over or `stop` returns true: asked after each attempt, what is found by then is
    told. () when nothing tried does it. A plan in which the car is in time is its own remedy.
    """
    begun, found = perf_counter(), []
    for attempt in Hunt(problem, plan, vehicle, offers, when, seed).run():
        if attempt.remedy is not None:
            found.append(attempt.remedy)
        if perf_counter() - begun >= seconds or (stop and stop()):
            break
    return tuple(sorted(found, key=lambda remedy: remedy.rank))


def _gap(problem: Problem, now: CarStanding) -> int:
    """Slots late, all late jobs of the car added up; one without a place is a whole plan late."""
    return now.late + len(now.unplaced) * problem.slots


def _gives_up(change: Change, vehicle: str) -> bool:
    """The car itself left at home would make any date."""
    return isinstance(change, StayHome) and change.vehicle == vehicle


def _tells_nothing_new(change: Change, works: list[Change]) -> bool:
    """Enough of its kind work, or it puts off more than what is known to do."""
    if sum(other.kind == change.kind for other in works) >= MOST_OF_A_KIND:
        return True
    return isinstance(change, Defer) and any(
        isinstance(other, Defer) and set(other.jobs) <= set(change.jobs) for other in works
    )


def _shortlist(nearest: list[tuple[int, Change]], now: int) -> list[Change]:
    """Those that come nearest and help at all, the nearest of each other kind, then the rest."""
    short = [change for gap, change in nearest if gap < now][:SHORTLIST]
    kinds = {change.kind for change in short}
    others = []
    for _, change in nearest:
        if change.kind not in kinds:
            kinds.add(change.kind)
            short.append(change)
        elif change not in short:
            others.append(change)
    return short + others[: max(0, SHORTLIST - len(short))]


def _pairs(short: list[Change]) -> list[tuple[Change, ...]]:
    """Two at a time, the least effort first."""
    pairs = [(one, two) for one, two in combinations(short, 2) if _joins(one, (two,))]
    return sorted(pairs, key=lambda pair: pair[0].effort + pair[1].effort)


def _joins(change: Change, others: tuple[Change, ...]) -> bool:
    """Whether it adds to the others: more of the same work put off or sooner does not."""
    if isinstance(change, Defer):
        return not any(isinstance(other, Defer) for other in others)
    if isinstance(change, Sooner):
        mine = change.touches
        return not any(isinstance(other, Sooner) and mine & other.touches for other in others)
    return change not in others

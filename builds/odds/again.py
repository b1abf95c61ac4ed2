"""The rest of the work planned again at the start of a session, by what is known by then."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builds.odds.demand import Demand
from builds.planner.aim import Aim
from builds.planner.crews import Crew
from builds.planner.model import NEVER, PENDING, Model
from builds.planner.order import JobUrgency, Rule, by_car, by_due, by_rank, by_rank_and_car, listed
from builds.planner.place import Draft, Placer, Places
from builds.planner.plan import Score
from builds.planner.problem import Job, Link, Problem

ORDERS: tuple[Rule, ...] = (by_rank, by_due, by_rank_and_car, by_car)
"""The orders of the list that a new plan is the best of."""

InHand = tuple[int, int, Crew]
"""A job in hand, when it would be over by what is known of it, and who is on it."""

Planned = tuple[int, int, int, tuple[int, ...]]
"""Start, end, job and people by number."""


class CostsMore(Exception):
    """A plan on its way costs more cars their event than another does."""


def with_standing_cars(problem: Problem) -> Problem:
    """The problem, and for each hold a piece of no work that stands for its car being there already.

    Those come after the jobs, in the order of the holds; each is the start of a second hold like the
    first, for when that one has begun.
    """
    standing = [f"{hold.start} in {hold.station} {number}" for number, hold in enumerate(problem.holds)]
    return replace(
        problem,
        jobs=(
            *problem.jobs,
            *(Job(name, hold.vehicle, "wanted", 0, 0) for name, hold in zip(standing, problem.holds, strict=True)),
        ),
        links=(
            *problem.links,
            *(Link(name, hold.until) for name, hold in zip(standing, problem.holds, strict=True)),
        ),
        holds=(
            *problem.holds,
            *(replace(hold, start=name) for name, hold in zip(standing, problem.holds, strict=True)),
        ),
        before=(),
    )


class QuickPlans(Placer):
    """Plans of what is left, made from one model of the problem `with_standing_cars`.

    Each is the best of all `ORDERS`; one that costs more cars their event than the best so far is
    given up on the way.
    """

    def __init__(self, model: Model) -> None:
        super().__init__(model)
        self.stride = model.size + 1
        self.aim, urgency = Aim(model), JobUrgency(model)
        self.orders = [listed(model, [rule(urgency, j) for j in range(model.size)]) for rule in ORDERS]
        self.pins = model.pinned[:]
        self.demand = Demand(model)
        self.must = [job.rank != "wanted" for job in model.problem.jobs]
        self.last = 0

    def plan(self, at: int, until: int, ends: Sequence[int], hand: Sequence[InHand]) -> list[Planned]:
        """What is to be begun from slot `at` to before slot `until`, by start.

        `ends[j]` is when job j ended, PENDING for those to be planned.
        """
        model = self.model
        self.demand.spare([j for j, end in enumerate(ends) if end == PENDING])
        for j, pin in enumerate(self.pins):
            model.pinned[j] = None if pin is None or pin < at else pin
        begun = Places.empty(model)
        begun.end[:] = ends
        for j, end, crew in hand:
            self._book(begun, j, at, end, crew)
        earliest = [opens if opens > at else at for opens in model.earliest]
        places = self._best(begun, earliest)
        starts, stops, crews = places.start, places.end, places.crew
        return sorted(
            (starts[j], stops[j], j, crews[j])
            for j, end in enumerate(ends)
            if end == PENDING and begun.end[j] == PENDING and starts[j] < until and PENDING < stops[j] < NEVER
        )

    def _best(self, begun: Places, earliest: list[int]) -> Places:
        """The plan of the best order, that of the plan before tried first; of equals the first order's."""
        self.begun, self.bound = begun, float("inf")
        best: tuple[Score, int, Places] | None = None
        tried: list[list[int]] = []
        for number in sorted(range(len(self.orders)), key=lambda number: number != self.last):
            left = [j for j in self.orders[number] if begun.end[j] == PENDING]
            if left in tried:
                continue
            tried.append(left)
            self.missed = {self.aim.car[j] for j in self.aim.late(begun.end) if self.must[j]}
            try:
                places = self.place(Draft(left, self.model.crews, earliest))
            except CostsMore:
                continue
            value = self.aim.value(places)
            if best is None or (value, number) < best[:2]:
                best, self.bound = (value, number, places), value[0]
        assert best is not None
        self.last = best[1]
        return best[2]

    def _job(self, draft: Draft, state: Places, j: int, position: dict[int, int] | None = None, at: int = 0) -> bool:
        if not super()._job(draft, state, j, position, at):
            return False
        if state.end[j] > self.aim.due[j] and self.must[j]:
            self.missed.add(self.aim.car[j])
            if sum(self.aim.worth[car] for car in self.missed) > self.bound:
                raise CostsMore
        return True

    def _begin(self, draft: Draft, kin: tuple[Draft, Places] | None) -> Places:
        return self.begun.copy()

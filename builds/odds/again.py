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

    A plan keeps the order of the list that the plan before it had, and takes the best of all
    `ORDERS` when that one would now cost another car its event.
    """

    def __init__(self, model: Model) -> None:
        super().__init__(model)
        self.stride = model.size + 1
        self.aim, urgency = Aim(model), JobUrgency(model)
        self.orders = [listed(model, [rule(urgency, j) for j in range(model.size)]) for rule in ORDERS]
        self.pins = model.pinned[:]
        self.demand = Demand(model)
        self.begin()

    def begin(self) -> None:
        """A new run: no order was taken yet, no pinned start missed."""
        self.order: list[int] | None = None
        self.missed = 0.0
        self.model.pinned[:] = self.pins

    def plan(self, at: int, until: int, ends: Sequence[int], hand: Sequence[InHand]) -> list[Planned]:
        """What is to be begun from slot `at` to before slot `until`, by start.

        `ends[j]` is when job j ended, PENDING for those to be planned.
        """
        model = self.model
        self.demand.spare([j for j, end in enumerate(ends) if end == PENDING])
        for j, pin in enumerate(self.pins):
            if pin is not None and pin < at:
                model.pinned[j] = None
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
        if self.order is not None:
            value, places = self._tried(self.order, begun, earliest)
            if value[0] <= self.missed:
                self.missed = value[0]
                return places
        best: tuple[Score, Places] | None = None
        for order in self.orders:
            value, places = self._tried(order, begun, earliest)
            if best is None or value < best[0]:
                best, self.order, self.missed = (value, places), order, value[0]
        assert best is not None
        return best[1]

    def _tried(self, order: list[int], begun: Places, earliest: list[int]) -> tuple[Score, Places]:
        self.begun = begun
        left = [j for j in order if begun.end[j] == PENDING]
        places = self.place(Draft(left, self.model.crews, earliest))
        return self.aim.value(places), places

    def _begin(self, draft: Draft, kin: tuple[Draft, Places] | None) -> Places:
        return self.begun.copy()

"""Drafts to begin with: by rules of urgency, by the plan before, by who goes first, and at random."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from random import Random

from builds.planner.aim import Aim
from builds.planner.crews import Crew
from builds.planner.model import Model
from builds.planner.order import RULES, JobUrgency, Rule, favouring, listed
from builds.planner.place import Draft

SUBSETS = 64
"""Sets of cars that the first drafts try to bring home at the cost of the others."""


class Drafts:
    """The drafts of one model that no other draft goes before."""

    def __init__(self, model: Model, aim: Aim, random: Random) -> None:
        self.model, self.aim, self.random = model, aim, random
        self.urgency = JobUrgency(model)

    def by(self, rule: Rule) -> Draft:
        """The order of a rule, and nothing else decided."""
        return Draft.of(self.model, self._listed(rule))

    def first(self, eager: list[list[Crew]], count: int) -> Iterator[Draft]:
        """By each rule; sparing nobody; by the promises; each set of cars first; `count` at random."""
        for rule in RULES:
            yield self.by(rule)
        if eager != self.model.crews:
            yield Draft(self._listed(RULES[0]), eager, self.model.earliest)
        if self.aim.promised:
            yield from self.promised()
        if not self.aim.finish:
            for cars in self._sets_of_cars():
                yield self.by(favouring(cars))
        for _ in range(count):
            yield self.shaken()

    def _listed(self, rule: Rule) -> list[int]:
        return listed(self.model, [rule(self.urgency, j) for j in range(self.model.size)])

    def _sets_of_cars(self) -> list[frozenset[str | None]]:
        """Sets of cars, neither none nor all; a random choice of them when there are many."""
        cars = sorted({car for car in self.aim.car if car is not None})
        if len(cars) > 6:
            counts = (self.random.randrange(1, len(cars)) for _ in range(SUBSETS))
            return [frozenset(self.random.sample(cars, count)) for count in counts]
        sizes = range(1, len(cars))
        return [frozenset(some) for size in sizes for some in combinations(cars, size)]

    def promised(self) -> Iterator[Draft]:
        """The order and the people of the plan before; once with nothing before its session."""
        model, promised = self.model, self.aim.promised
        starts = {j: begin for j, (begin, _, _) in promised.items()}
        order = listed(model, [(starts.get(j, model.horizon),) for j in range(model.size)])
        crews = [
            [crew for crew in crews if j in promised and sorted(crew.people) == promised[j][2]] or crews
            for j, crews in enumerate(model.crews)
        ]
        yield Draft(order, crews, model.earliest)
        earliest = [max(at, starts.get(j, 0)) for j, at in enumerate(model.earliest)]
        yield Draft(order, crews, earliest)

    def shaken(self) -> Draft:
        """The order of a rule, shaken."""
        order = self._listed(self.random.choice(RULES))
        size = self.model.size
        keys = [(0.0,)] * size
        for position, j in enumerate(order):
            keys[j] = (self.random.gauss(position, size / 5),)
        return Draft.of(self.model, listed(self.model, keys))

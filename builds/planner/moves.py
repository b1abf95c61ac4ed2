"""Ways from good orders of the list to others: crossing two, and moving jobs, cars and late ones.

Every order that comes out respects the links when those that go in do.
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from builds.planner.model import NEVER, Model
from builds.planner.order import listed
from builds.planner.place import Draft
from builds.planner.problem import RANKS

STRETCH = (0.25, 0.75)
"""How much of an order is rearranged by another, as shares of its length."""


def crossed(random: Random, first: Sequence[int], second: Sequence[int]) -> list[int]:
    """The first order, with a stretch of it filled by what the second has next."""
    low, high = sorted((random.randrange(len(first) + 1), random.randrange(len(first) + 1)))
    head = set(first[:low])
    stretch = [j for j in second if j not in head][: high - low]
    taken = head.union(stretch)
    return [*first[:low], *stretch, *(j for j in first if j not in taken)]


def rearranged(random: Random, first: Sequence[int], second: Sequence[int]) -> list[int]:
    """The first order, with the jobs of a stretch of it in the order of the second."""
    length = round(random.uniform(*STRETCH) * len(first))
    low = random.randint(0, len(first) - length)
    turn = {j: position for position, j in enumerate(second)}
    return [*first[:low], *sorted(first[low : low + length], key=turn.__getitem__), *first[low + length :]]


class Moves:
    """The moves of one model."""

    def __init__(self, model: Model, random: Random) -> None:
        self.model, self.random = model, random
        self.needs = [model.ancestors(j) for j in range(model.size)]
        self.opens: list[set[int]] = [set() for _ in range(model.size)]
        for j, needs in enumerate(self.needs):
            for first in needs:
                self.opens[first].add(j)
        self.finish = model.problem.goal == "finish"
        jobs = model.problem.jobs
        self.due = [NEVER if job.due is None else job.due for job in jobs]
        self.rank = [RANKS.index(job.rank) for job in jobs]
        self.decisive = [job.must_do for job in jobs]
        self.car_of = [job.vehicle for job in jobs]
        cars = sorted(set(self.car_of), key=str)
        self.cars = [{j for j, name in enumerate(self.car_of) if name == car} for car in cars]
        self.eager = [
            [crew.without_cost() for crew in crews] if any(crew.cost for crew in crews) else crews
            for crews in model.crews
        ]
        self.thrifty = [j for j, crews in enumerate(model.crews) if crews is not self.eager[j] and len(crews) > 1]

    def moved(self, draft: Draft, late: list[int]) -> Draft:
        """The draft with one thing changed, most often one of the jobs that are late."""
        random, order = self.random, list(draft.order)
        chance = random.random()
        if self.finish:
            order = self.shifted(order, (30, len(order)))
        elif chance < 0.2 and (choosy := self.choosy(draft)):
            return self.people(draft, random.choice(choosy))
        elif late and chance < 0.35:
            order = self.swapped(order, random.choice(late))
        elif chance < 0.6:
            job = random.choice(late or order)
            position = order.index(job)
            if random.random() < 0.8:
                order = self.sooner(order, position, random.randrange(position + 1))
            else:
                order = self.later(order, position, random.randrange(position, len(order)))
        elif chance < 0.87:
            order = self.shifted(order, (3, 10, 30, len(order)))
        elif chance < 0.91:
            order = self.car(order)
        else:
            order = self.rescue(order, late)
        return Draft(order, draft.crews, draft.earliest)

    def swapped(self, order: list[int], job: int) -> list[int]:
        """The job moved up to where one due later or of less rank stands, and that one down to where the job stood."""
        position, due, rank = order.index(job), self.due, self.rank
        may_wait = [k for k, j in enumerate(order[:position]) if due[j] > due[job] or rank[j] > rank[job]]
        if not may_wait:
            return order
        to = self.random.choice(may_wait)
        order = self.later(order, to, position)
        return self.sooner(order, order.index(job), to)

    def shifted(self, order: list[int], reaches: Sequence[int]) -> list[int]:
        """Any job moved up or down by at most one of the reaches."""
        random, position = self.random, self.random.randrange(len(order))
        reach = random.choice(reaches)
        to = min(max(position + random.randint(-reach, reach), 0), len(order) - 1)
        return (self.sooner if to < position else self.later)(order, position, to)

    def sooner(self, order: list[int], position: int, to: int) -> list[int]:
        """The job at `position` moved up to `to`, with all it waits for among those it passes."""
        job = order[position]
        along = self.needs[job]
        passed = order[to:position]
        up = [j for j in passed if j in along]
        rest = [j for j in passed if j not in along]
        return order[:to] + up + [job] + rest + order[position + 1 :]

    def later(self, order: list[int], position: int, to: int) -> list[int]:
        """The job at `position` moved down to `to`, with all that waits for it on the way."""
        job = order[position]
        along = self.opens[job]
        passed = order[position + 1 : to + 1]
        down = [j for j in passed if j in along]
        rest = [j for j in passed if j not in along]
        return order[:position] + rest + [job] + down + order[to + 1 :]

    def car(self, order: list[int]) -> list[int]:
        """All jobs of one car moved up or down the list by the same number of places."""
        jobs = self.random.choice(self.cars)
        by = self.random.choice((5, 20, 60, len(order))) * self.random.choice((-1, 1))
        keys = [(0.0,)] * len(order)
        for position, j in enumerate(order):
            keys[j] = (float(position + by) if j in jobs else float(position),)
        return listed(self.model, keys)

    def rescue(self, order: list[int], late: list[int]) -> list[int]:
        """All that makes one car miss its event moved up, with all it waits for."""
        decisive = [j for j in late if self.decisive[j]]
        if not decisive:
            return order
        car = self.car_of[self.random.choice(decisive)]
        mine = {j for j in decisive if self.car_of[j] == car}
        along = mine.union(*(self.needs[j] for j in mine))
        positions = [position for position, j in enumerate(order) if j in along]
        to, last = self.random.randrange(positions[0], positions[-1] + 1), positions[-1]
        passed = order[to : last + 1]
        up = [j for j in passed if j in along]
        return order[:to] + up + [j for j in passed if j not in along] + order[last + 1 :]

    def hurried(self, draft: Draft, job: int) -> Draft:
        """One job given to whoever ends it first, sparing nobody."""
        crews = list(draft.crews)
        crews[job] = self.eager[job]
        return Draft(draft.order, crews, draft.earliest)

    def choosy(self, draft: Draft) -> list[int]:
        """The jobs that several crews can do, and those that a promise keeps from beginning."""
        soonest = self.model.earliest
        return [j for j, crews in enumerate(self.model.crews) if len(crews) > 1 or draft.earliest[j] != soonest[j]]

    def people(self, draft: Draft, job: int) -> Draft:
        """The job given to one crew alone, to whoever ends it first, or to anybody again."""
        choices = [self.model.crews[job], self.eager[job], *([crew] for crew in self.eager[job])]
        crews, earliest = list(draft.crews), list(draft.earliest)
        crews[job] = self.random.choice(choices)
        earliest[job] = self.model.earliest[job]
        return Draft(draft.order, crews, earliest)

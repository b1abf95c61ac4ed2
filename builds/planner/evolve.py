"""The search: a crowd of good drafts, new ones crossed and moved from them, the worst replaced."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from itertools import combinations
from random import Random

from builds.planner.aim import Aim
from builds.planner.model import NEVER, Model
from builds.planner.moves import Moves, crossed
from builds.planner.order import (
    RULES,
    JobUrgency,
    Rule,
    by_event,
    by_event_and_slack,
    favouring,
    giving_way,
    listed,
)
from builds.planner.place import Draft, Placer, Places
from builds.planner.plan import Score
from builds.planner.profile import Profile, suits

CROWD = 60
"""Drafts kept at a time."""

RIVALS = 3
"""Drafts drawn from the crowd for each parent; the best of them it is."""

ALIKE = 3
"""Drafts in the crowd that are late with the same jobs; so that it does not settle on one kind."""

CROSSING = 0.8
"""How often a child is crossed from two drafts; half of these, and all others, are moved too."""

MORE_AT_ONCE = 450
"""Jobs that are placed over again before any search, at most, to see which car had better give way."""

STALE = 30
"""Children a draft of the crowd may have, on average, without a better plan, before a new crowd."""

SUBSETS = 64
"""Sets of cars that the first crowd tries to bring home at the cost of the others."""


class Candidate:
    """A draft, how it was placed, what is late, and what that is worth; ordered by worth."""

    __slots__ = ("draft", "late", "places", "value")

    def __init__(self, draft: Draft, places: Places, late: list[int], value: Score) -> None:
        self.draft, self.places, self.late, self.value = draft, places, late, value

    def __lt__(self, other: Candidate) -> bool:
        return self.value < other.value


class Evolution:
    """Each step of `run` places one more draft; `best` is the best candidate so far."""

    def __init__(self, model: Model, seed: int) -> None:
        self.model, self.random = model, Random(seed)
        self.placer = Profile(model) if suits(model) else Placer(model)
        self.aim = Aim(model)
        self.urgency = JobUrgency(model)
        self.best = self._at_once()
        if self.aim.promised:  # before any search a plan keeps what it can of the one before
            self.best = min(self.best, *map(self._loosened, self._promised_drafts()))

    def _at_once(self) -> Candidate:
        """By event; by slack too if that leaves a job late; if a car misses its event, each of a few giving way."""
        best = self._by(by_event)
        if best.late:
            best = min(best, self._by(by_event_and_slack))
        if self.aim.missed(best.late):
            heaviest = sorted(self.aim.dated, key=self.aim.burden)[-max(1, MORE_AT_ONCE // self.model.size) :]
            best = min(best, *(self._by(giving_way([car])) for car in heaviest))
        return best

    def _by(self, rule: Rule) -> Candidate:
        return self._candidate(Draft.of(self.model, self._listed(rule)))

    def _candidate(self, draft: Draft, kin: Candidate | None = None) -> Candidate:
        """The draft placed; `kin` is the candidate that a child is mostly like."""
        places = self.placer.place(draft) if kin is None else self.placer.child(draft, (kin.draft, kin.places))
        draft = Draft(places.order, draft.crews, draft.earliest)
        return Candidate(draft, places, self.aim.late(places.end), self.aim.value(places))

    def _loosened(self, draft: Draft) -> Candidate:
        """The draft placed, without the promises that leave a job without a place."""
        model, candidate = self.model, self._candidate(draft)
        while True:
            end, draft = candidate.places.end, candidate.draft
            tied = [
                j
                for j in range(model.size)
                if end[j] == NEVER
                and (draft.crews[j] is not model.crews[j] or draft.earliest[j] != model.earliest[j])
                and all(end[first] != NEVER for first, _, _ in model.before[j])
            ]
            if not tied:
                return candidate
            crews, earliest = list(draft.crews), list(draft.earliest)
            for j in tied:
                crews[j], earliest[j] = model.crews[j], model.earliest[j]
            candidate = self._candidate(Draft(draft.order, crews, earliest))

    def run(self) -> Iterator[None]:
        """One step for each draft placed; ends only when nothing can be better."""
        floor = self.aim.floor()
        moves = Moves(self.model, self.random)
        drafts = self._first_drafts(moves)
        while self.best.value > floor:
            crowd: list[Candidate] = []
            for draft in drafts:
                self._join(crowd, self._candidate(draft))
                yield
            since = 0
            while since < STALE * CROWD and self.best.value > floor:
                since = 0 if self._join(crowd, self._child(moves, crowd)) else since + 1
                yield
            drafts = (self._random_draft() for _ in range(CROWD))

    def _child(self, moves: Moves, crowd: list[Candidate]) -> Candidate:
        """A draft crossed or moved from drafts of the crowd, the better ones more often."""
        random = self.random
        first, second = (crowd[min(random.randrange(len(crowd)) for _ in range(RIVALS))] for _ in range(2))
        draft = first.draft
        crossing = first is not second and random.random() < CROSSING
        if crossing:
            order = crossed(random, draft.order, second.draft.order)
            draft = Draft(order, draft.crews, draft.earliest)
        if not crossing or random.random() < 0.5:
            draft = moves.moved(draft, first.late)
        if any(self.model.stage):
            order = sorted(draft.order, key=self.model.stage.__getitem__)
            draft = Draft(order, draft.crews, draft.earliest)
        return self._candidate(draft, first)

    def _join(self, crowd: list[Candidate], candidate: Candidate) -> bool:
        """Take the candidate into the crowd if it is good enough; true when it is the crowd's best."""
        if candidate.value < self.best.value:
            self.best = candidate
        if len(crowd) >= CROWD and crowd[-1].value < candidate.value:
            return False
        position = bisect_left(crowd, candidate)
        for other in crowd[position:]:
            if other.value != candidate.value:
                break
            if other.places.end == candidate.places.end:
                return False
        alike = [k for k, other in enumerate(crowd) if other.late == candidate.late]
        if candidate.late and len(alike) >= ALIKE:
            if alike[-1] < position:
                return False
            del crowd[alike[-1]]
        crowd.insert(position, candidate)
        del crowd[CROWD:]
        return position == 0 and (len(crowd) == 1 or candidate.value < crowd[1].value)

    def _first_drafts(self, moves: Moves) -> Iterator[Draft]:
        """By each rule; sparing nobody; by the promises; each set of cars first; some at random."""
        for rule in RULES:
            yield Draft.of(self.model, self._listed(rule))
        if moves.eager != self.model.crews:
            yield Draft(self._listed(RULES[0]), moves.eager, self.model.earliest)
        if self.aim.promised:
            yield from self._promised_drafts()
        if not self.aim.finish:
            for cars in self._sets_of_cars():
                yield Draft.of(self.model, self._listed(favouring(cars)))
        for _ in range(CROWD // 2):
            yield self._random_draft()

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

    def _promised_drafts(self) -> Iterator[Draft]:
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

    def _random_draft(self) -> Draft:
        """The order of a rule, shaken."""
        order = self._listed(self.random.choice(RULES))
        size = self.model.size
        keys = [(0.0,)] * size
        for position, j in enumerate(order):
            keys[j] = (self.random.gauss(position, size / 5),)
        return Draft.of(self.model, listed(self.model, keys))

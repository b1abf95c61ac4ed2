"""The search: a crowd of good drafts, new ones crossed and moved from them, the worst replaced."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from random import Random
from typing import NamedTuple

from builds.planner.aim import Aim
from builds.planner.drafts import Drafts
from builds.planner.model import NEVER, Model
from builds.planner.moves import Moves, crossed, rearranged
from builds.planner.order import by_event, by_event_and_slack, giving_way
from builds.planner.place import Draft, Placer, Places
from builds.planner.plan import Score
from builds.planner.profile import Profile, suits


class Breeding(NamedTuple):
    """`crowd` drafts kept at a time, `shaken` random ones among the first.

    A child is crossed in one of `crossings` with the chance `crossing`; then moved with the chance
    `moving`, and always when it was not crossed.
    """

    crowd: int
    shaken: int
    crossing: float
    moving: float
    crossings: tuple[Callable[[Random, Sequence[int], Sequence[int]], list[int]], ...]


USUAL = Breeding(60, 30, 0.8, 0.5, (crossed, rearranged))
CHEAP = Breeding(160, 160, 0.9, 1.0, (rearranged,))
"""Where a draft is placed in a fraction of a millisecond: more of them, and more of a mixture."""

RIVALS = 3
"""Drafts drawn from the crowd for each parent; the best of them it is."""

ALIKE = 3
"""Drafts in the crowd that are late with the same jobs; so that it does not settle on one kind."""

MORE_AT_ONCE = 450
"""Jobs that are placed over again before any search, at most, to see which car had better give way."""

STALE = 30
"""Children a draft of the crowd may have, on average, without a better plan, before a new crowd."""


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
        cheap = suits(model)
        self.placer = Profile(model) if cheap else Placer(model)
        self.breeding = CHEAP if cheap else USUAL
        self.aim = Aim(model)
        self.drafts = Drafts(model, self.aim, self.random)
        self.best = self._at_once()
        if self.aim.promised:  # before any search a plan keeps what it can of the one before
            self.best = min(self.best, *map(self._loosened, self.drafts.promised()))

    def _at_once(self) -> Candidate:
        """By event; by slack too if that leaves a job late; if a car misses its event, each of a few giving way."""
        drafts = self.drafts
        best = self._candidate(drafts.by(by_event))
        if best.late:
            best = min(best, self._candidate(drafts.by(by_event_and_slack)))
        if self.aim.missed(best.late):
            heaviest = sorted(self.aim.dated, key=self.aim.burden)[-max(1, MORE_AT_ONCE // self.model.size) :]
            best = min(best, *(self._candidate(drafts.by(giving_way([car]))) for car in heaviest))
        return best

    def _candidate(self, draft: Draft, kin: Candidate | None = None) -> Candidate:
        """The draft placed; `kin` is the candidate that a child is mostly like."""
        places = self.placer.place(draft, (kin.draft, kin.places) if kin else None)
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
        drafts = self.drafts.first(moves.eager, self.breeding.shaken)
        while self.best.value > floor:
            crowd: list[Candidate] = []
            for draft in drafts:
                self._join(crowd, self._candidate(draft))
                yield
            since = 0
            while since < STALE * self.breeding.crowd and self.best.value > floor:
                since = 0 if self._join(crowd, self._child(moves, crowd)) else since + 1
                yield
            for job in moves.thrifty:
                self.best = min(self.best, self._candidate(moves.hurried(self.best.draft, job), self.best))
                yield
            drafts = (self.drafts.shaken() for _ in range(self.breeding.crowd))

    def _child(self, moves: Moves, crowd: list[Candidate]) -> Candidate:
        """A draft crossed or moved from drafts of the crowd, the better ones more often."""
        random = self.random
        first, second = (crowd[min(random.randrange(len(crowd)) for _ in range(RIVALS))] for _ in range(2))
        draft = first.draft
        crossing = first is not second and random.random() < self.breeding.crossing
        if crossing:
            order = random.choice(self.breeding.crossings)(random, draft.order, second.draft.order)
            draft = Draft(order, draft.crews, draft.earliest)
        if not crossing or random.random() < self.breeding.moving:
            draft = moves.moved(draft, first.late)
        if any(self.model.stage):
            order = sorted(draft.order, key=self.model.stage.__getitem__)
            draft = Draft(order, draft.crews, draft.earliest)
        return self._candidate(draft, first)

    def _join(self, crowd: list[Candidate], candidate: Candidate) -> bool:
        """Take the candidate into the crowd if it is good enough; true when it is the crowd's best."""
        if candidate.value < self.best.value:
            self.best = candidate
        if len(crowd) >= self.breeding.crowd and crowd[-1].value < candidate.value:
            return False
        position = bisect_left(crowd, candidate)
        for other in crowd[position:]:
            if other.value != candidate.value:
                break
            if other.places.end == candidate.places.end:
                return False
        if candidate.late:
            alike = [k for k, other in enumerate(crowd) if other.late == candidate.late]
            if len(alike) >= ALIKE:
                if alike[-1] < position:
                    return False
                del crowd[alike[-1]]
        crowd.insert(position, candidate)
        del crowd[self.breeding.crowd :]
        return position == 0 and (len(crowd) == 1 or candidate.value < crowd[1].value)

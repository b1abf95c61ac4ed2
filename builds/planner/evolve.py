"""The search: pools of good drafts, new ones crossed and moved from them, the worst replaced."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from operator import attrgetter
from random import Random
from typing import NamedTuple

from builds.planner.aim import Aim
from builds.planner.drafts import Drafts
from builds.planner.idle_holds import kept_out, put_ahead
from builds.planner.model import NEVER, Model
from builds.planner.moves import Moves, crossed, rearranged
from builds.planner.order import by_event, by_event_and_slack, giving_way
from builds.planner.place import Draft, Placer
from builds.planner.pool import Candidate, Pool
from builds.planner.profile import Profile, suits


class Breeding(NamedTuple):
    """`kept` drafts in a pool, `shaken` random ones among the first.

    A child is crossed in one of `crossings` with the chance `crossing`; then moved with the chance
    `moving`, and always when it was not crossed.
    """

    kept: int
    shaken: int
    crossing: float
    moving: float
    crossings: tuple[Callable[[Random, Sequence[int], Sequence[int]], list[int]], ...]


USUAL = Breeding(36, 18, 0.8, 0.9, (crossed, rearranged))
CHEAP = Breeding(160, 160, 0.9, 1.0, (rearranged,))
"""Where a draft is placed in a fraction of a millisecond: more of them, and more of a mixture."""

MORE_AT_ONCE = 2500
"""Jobs placed over again before any search, from which on no other car is asked to give way."""

AHEAD_AT_ONCE = 1000
"""The same, from which on no other work is put ahead of a hold that would only wait."""

HEAVIEST = 3
"""Cars tried for each that gives way; the best of them it is."""

STALE = 30
"""Children a draft of a pool may have, on average, without a better one, before all begins anew."""


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
        """By event; by slack too if that leaves a job late; with cars giving way if one misses its event."""
        best = self._candidate(self.drafts.by(by_event))
        if best.late:
            best = min(best, self._candidate(self.drafts.by(by_event_and_slack)))
        return self._with_holds_begun_later(self._with_cars_giving_way(best))

    def _with_cars_giving_way(self, best: Candidate) -> Candidate:
        """Another of the heaviest cars put behind all others, as long as that is better and not many were tried."""
        away: list[str | None] = []
        cars, left = sorted(self.aim.dated, key=self.aim.burden), MORE_AT_ONCE
        while self.aim.missed(best.late) and cars and left > 0:
            found = [(self._candidate(self.drafts.by(giving_way([*away, car]))), car) for car in cars[-HEAVIEST:]]
            better, car = min(found, key=lambda pair: pair[0].value)
            if better.value >= best.value:
                break
            best, left = better, left - len(found) * self.model.size
            away.append(car)
            cars.remove(car)
        return best

    def _with_holds_begun_later(self, best: Candidate) -> Candidate:
        """Work of other cars put ahead of holds that would only wait, where that is better and not many were tried."""
        left = AHEAD_AT_ONCE
        for first, job in kept_out(self.model, best.places):
            order = best.draft.order
            if left <= 0:
                break
            if order.index(first) < order.index(job):
                draft = Draft(put_ahead(self.model, order, job, first), best.draft.crews, best.draft.earliest)
                best, left = min(best, self._candidate(draft, best)), left - self.model.size
        return best

    def _candidate(self, draft: Draft, kin: Candidate | None = None) -> Candidate:
        """The draft placed; `kin` is the candidate that a child is mostly like."""
        places = self.placer.place(draft, (kin.draft, kin.places) if kin else None)
        return Candidate(Draft(places.order, draft.crews, draft.earliest), places, self.aim)

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
            pools = self._pools()
            for draft in drafts:
                self._offer(pools, self._candidate(draft))
                yield
            since = 0
            while since < STALE * self.breeding.kept and self.best.value > floor:
                child = self._child(moves, self.random.choice(pools))
                since = 0 if self._offer(pools, child) else since + 1
                yield
            for job in moves.thrifty:
                self.best = min(self.best, self._candidate(moves.hurried(self.best.draft, job), self.best))
                yield
            drafts = (self.drafts.shaken() for _ in range(self.breeding.kept))

    def _pools(self) -> list[Pool]:
        """One by worth; where jobs can be late, one too by how near they are to being in time."""
        measures = ("value",) if self.aim.finish else ("value", "near")
        return [Pool(self.breeding.kept, attrgetter(measure)) for measure in measures]

    def _offer(self, pools: list[Pool], candidate: Candidate) -> bool:
        """Offer the candidate to every pool; true when it is the best of one."""
        self.best = min(self.best, candidate)
        best_of = [pool.join(candidate) for pool in pools]
        return any(best_of)

    def _child(self, moves: Moves, pool: Pool) -> Candidate:
        """A draft crossed or moved from drafts of the pool."""
        random = self.random
        first, second = pool.parent(random), pool.parent(random)
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

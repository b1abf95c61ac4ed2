"""What a plan of the rest, made now by what is known, would have begun this very moment."""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heappop

from builds.odds.around import Around
from builds.odds.moment import Begun, InHand, Moment
from builds.planner.aim import Aim
from builds.planner.model import NEVER, PENDING, Model
from builds.planner.order import JobUrgency, Rule, by_car, by_due, by_rank, by_rank_and_car, listed
from builds.planner.place import Draft, Places
from builds.planner.plan import Score

ORDERS: tuple[Rule, ...] = (by_rank, by_due, by_rank_and_car, by_car)
"""The orders of the list that a plan is the best of."""


class Ahead(Around):
    """Plans of what is left, made from one model, no further than needed.

    A plan places the list from its head and ends with the last job that could begin at once: what
    comes behind it changes nothing now.
    """

    def __init__(self, model: Model) -> None:
        self.aim, urgency = Aim(model), JobUrgency(model)
        self.orders = [listed(model, [rule(urgency, j) for j in range(model.size)]) for rule in ORDERS]
        super().__init__(model, self.orders[0])
        self.turns = [{j: turn for turn, j in enumerate(order)} for order in self.orders]
        self.tells = [self._tells(turn) for turn in self.turns]
        instant = [j for j, work in enumerate(model.work) if not work]
        self.instants = [sum(1 << turn[j] for j in instant) for turn in self.turns]
        self.bits = {crew.people: _bits(crew.people) for crews in self.crews for crew in crews} | {(): 0}
        self.groups = [sorted({self.bits[crew.people] for crew in crews}) for crews in self.crews]
        self.there = self._there()
        self.doers_by_order: list[dict[int, int]] = [{} for _ in self.orders]
        self.first, self.missed = self._first(), 0.0
        self.use(self.first)

    def _first(self) -> int:
        """The order whose plan is the best before anything has begun; of equals the first."""
        drafts = [Draft(order, self.crews, self.model.earliest) for order in self.orders]
        return min(range(len(drafts)), key=lambda k: self.aim.value(self.place(drafts[k])))

    def use(self, k: int) -> None:
        """Plan by this order from now on."""
        self.used, self.order, self.turn, self.doers = k, self.orders[k], self.turns[k], self.doers_by_order[k]
        self.draft.order, self.instant = self.order, self.instants[k]

    def choose(self, known: Moment, ready: Sequence[int]) -> None:
        """Use the order whose plan of all the rest is the best, the one in use before its equals; `ready` are jobs.

        Where that one has no car late, or the same that no other order saved before, the others are not asked.
        """
        used, (state, heap) = self.used, self._tried(self.used, known, ready)
        if self._score(state)[0] in (0, self.missed):
            return
        left = [[j for j in order if known.ends[j] == PENDING] for order in self.orders]
        best, chosen = self._whole(state, heap), used
        for k in range(len(left)):
            if left[k] not in (left[used], *left[:k]):
                state, heap = self._tried(k, known, ready)
                if self._score(state)[0] <= best[0] and (whole := self._whole(state, heap)) < best:
                    best, chosen = whole, k
        self.missed = best[0]
        self.use(chosen)

    def _tried(self, k: int, known: Moment, ready: Sequence[int]) -> tuple[Places, list[int]]:
        """The plan of all the rest by an order, as far as it says which cars are late; and the turns to go on with."""
        self.use(k)
        state, heap = self._state(known), sorted(self.turn[j] for j in ready)
        self._go_on(state, heap, self.tells[k])
        return state, heap

    def _whole(self, state: Places, heap: list[int]) -> Score:
        """What such a plan is worth, once it is gone on with to its end."""
        self._go_on(state, heap, self.model.size)
        return self._score(state)

    def _score(self, state: Places) -> Score:
        return self.aim.score([NEVER if end == PENDING else end for end in state.end])

    def _go_on(self, state: Places, heap: list[int], last: int) -> None:
        """Place the list up to a turn."""
        while heap and heap[0] <= last:
            j = self.order[heappop(heap)]
            if state.end[j] == PENDING:
                placed = len(state.order)
                self._put(state, j)
                self._begun(state, placed, heap, NEVER)

    def _tells(self, turn: dict[int, int]) -> int:
        """The turn after which no job says any more which cars are late."""
        if self.aim.finish:
            return self.model.size
        return max((turn[j] for jobs in self.aim.dated.values() for j in jobs), default=-1)

    def _there(self) -> list[int]:
        """By folded slot the people who are in, person k as bit k."""
        there = [0] * (self.model.fold.size + 1)
        for k, hours in enumerate(self.model.roster.hours):
            for slot in self.model.roster.axis(hours).slots:
                there[slot] |= 1 << k
        return there

    def clear(self) -> None:
        """A new run: no time has passed."""
        self.missed = 0.0
        self.use(self.first)

    def idle(self, at: int, hand: Sequence[InHand]) -> int:
        """The people who are in and have nothing in hand, person k as bit k."""
        idle = self.there[self.folded[at]]
        for _, _, crew in hand:
            idle &= ~self.bits[crew.people]
        return idle

    def next(self, known: Moment) -> list[Begun]:
        """What the plan of the rest begins now."""
        at, order, now = known.at, self.order, list[Begun]()
        slot, idle = self.folded[at], known.idle
        could = known.open & self.able(idle)
        state = self._state(known)
        could, until = self._with_room(state, could, slot)
        heap = list(known.ready)
        while heap and could >> heap[0]:
            turn = heappop(heap)
            if state.end[order[turn]] != PENDING:
                continue
            placed, soonest = len(state.order), until
            self._put(state, order[turn], soon=could >> turn & 1)
            for j in self._begun(state, placed, heap, known.beyond):
                start = state.start[j]
                soonest = min(soonest, self.folded[start])
                if start == at:
                    people = state.crew[j]
                    now.append((j, people))
                    idle &= ~self.bits[people]
                    could &= self.able(idle)
            if soonest < until:
                could, until = self._with_room(state, could, slot)
        return now

    def _with_room(self, state: Places, could: int, slot: int) -> tuple[int, int]:
        """Without the last of these turns as long as its job cannot begin in a folded slot; and the slot it ends by.

        What is placed from there on is not in its way. A job without work may give a place back at once: then
        nothing is known.
        """
        while could and not could & self.instant:
            last = could.bit_length() - 1
            stop = self._fits(state, self.order[last], slot)
            if stop:
                return could, stop
            could ^= 1 << last
        return could, self.model.fold.size

    def _fits(self, state: Places, j: int, slot: int) -> int:
        """Where the work of the job ends with the first crew that can begin it in a folded slot; 0 for none."""
        work, splits, free, room = self.model.work[j], self.model.splits[j], state.free, self._room(state, j)
        if not room >> slot & 1:
            return 0
        for crew in self.crews[j]:
            axis, gap, stop = crew.axis, room, slot + work
            if not axis.open >> slot & 1:
                continue
            for person in crew.people:
                gap &= free[person]
            if splits:
                last = axis.rank[slot] + work - 1
                if last >= len(axis.slots):
                    continue
                stop = axis.slots[last] + 1
            else:
                gap &= axis.open
            span = (1 << (stop - slot)) - 1
            if gap >> slot & span == span and self.clearing.is_free(state.free, j, self.real[stop - 1] + 1):
                return stop
        return 0

    def able(self, idle: int) -> int:
        """The turns of the jobs that these people, person k as bit k, can do."""
        if idle not in self.doers:
            able = (j for j, work in enumerate(self.model.work) if not work or _any_of(self.groups[j], idle))
            self.doers[idle] = sum(1 << self.turn[j] for j in able)
        return self.doers[idle]


def _bits(people: tuple[int, ...]) -> int:
    """Person k as bit k."""
    bits = 0
    for person in people:
        bits |= 1 << person
    return bits


def _any_of(groups: Sequence[int], idle: int) -> bool:
    return any(group & idle == group for group in groups)

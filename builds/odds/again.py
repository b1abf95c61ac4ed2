"""What a plan of the rest, made now by what is known, would have begun this very moment."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush

from builds.planner.aim import Aim
from builds.planner.crews import Crew
from builds.planner.model import NEVER, PENDING, Model
from builds.planner.order import JobUrgency, Rule, by_car, by_due, by_rank, by_rank_and_car, listed
from builds.planner.place import Draft, Placer, Places
from builds.planner.stock import lower, rise

ORDERS: tuple[Rule, ...] = (by_rank, by_due, by_rank_and_car, by_car)
"""The orders of the list that the first plan is the best of; the garage keeps to that one."""

InHand = tuple[int, int, Crew]
"""A job in hand, when it would be over by what is known of it, and who is on it."""

Begun = tuple[int, int, tuple[int, ...]]
"""A slot in which a job begins, the job and its people by number."""


@dataclass(slots=True)
class Moment:
    """What is known at slot `at`.

    `ends[j]` is when job j ended, PENDING when it has not; `ready` the turns of the jobs that wait for
    nothing but what has begun, rising, and `open` those of them that nothing keeps from beginning now but people
    and places, turn t as bit t; `kept` the holds that have begun and are not over. What waits for a job that ends
    past slot `beyond` is left out of the plan.
    """

    at: int
    ends: Sequence[int]
    hand: Sequence[InHand]
    ready: Sequence[int]
    open: int
    kept: Sequence[int]
    beyond: int


@dataclass(slots=True)
class Next:
    """What a plan begins at once, and what it has for later."""

    now: list[Begun] = field(default_factory=list)
    later: list[Begun] = field(default_factory=list)


class Ahead(Placer):
    """Plans of what is left, made from one model, no further than needed.

    A plan places the list from its head and ends with the last job that could begin at once: what
    comes behind it changes nothing now. `turn[j]` is where job j stands in the list. A hold keeps its
    places to the horizon until its last job is placed too. Of crews that end a job in the same slot it
    takes the first in the order of the people.
    """

    def __init__(self, model: Model) -> None:
        super().__init__(model)
        self.stride = model.size + 1
        self.crews = _in_order(model)
        self.order = self._best()
        self.turn = {j: turn for turn, j in enumerate(self.order)}
        self.pins = {j: pin for j, pin in enumerate(model.pinned) if pin is not None}
        self.groups = [sorted({_bits(crew.people) for crew in crews}) for crews in self.crews]
        self.draft = Draft(self.order, self.crews, model.earliest[:])
        self.there = self._there()
        self.able: dict[int, int] = {}
        self.instant = sum(1 << self.turn[j] for j, work in enumerate(model.work) if not work)
        self.holds_from = {j: [h for h, first in enumerate(self.holds.starts) if first == j] for j in self.holds.starts}
        self.holds_to = {j: [h for h, last in enumerate(self.holds.ends) if last == j] for j in self.holds.ends}

    def _best(self) -> list[int]:
        """The order whose plan is the best before anything has begun; of equals the first."""
        model = self.model
        aim, urgency = Aim(model), JobUrgency(model)
        orders = [listed(model, [rule(urgency, j) for j in range(model.size)]) for rule in ORDERS]
        return min(orders, key=lambda order: aim.value(self.place(Draft(order, self.crews, model.earliest))))

    def _there(self) -> list[int]:
        """By folded slot the people who are in, person k as bit k."""
        there = [0] * (self.model.fold.size + 1)
        for k, hours in enumerate(self.model.roster.hours):
            for slot in self.model.roster.axis(hours).slots:
                there[slot] |= 1 << k
        return there

    def next(self, known: Moment) -> Next:
        """What the plan of the rest begins now, and next."""
        at, order, answer = known.at, self.order, Next()
        slot = self.folded[at]
        idle = self.there[slot]
        for _, _, crew in known.hand:
            idle &= ~_bits(crew.people)
        could = known.open & self._able(idle)
        if not could:
            return answer
        state = self._state(known)
        could, until = self._with_room(state, could, slot)
        heap = list(known.ready)
        while heap and could >> heap[0]:
            j = order[heappop(heap)]
            self.draft.earliest[j] = max(at, self.model.earliest[j])
            placed = self._open_ended if j in self.holds_from else self._job
            placed(self.draft, state, j)
            if state.end[j] == NEVER:
                continue
            for h in self.holds_to.get(j, ()):
                self._release(state, h, state.end[j])
            for turn in self._opened(state, j, known.beyond):
                heappush(heap, turn)
            begun = (state.start[j], j, state.crew[j])
            if state.start[j] > at:
                answer.later.append(begun)
            else:
                answer.now.append(begun)
                idle &= ~_bits(state.crew[j])
                could &= self._able(idle)
            if self.folded[state.start[j]] < until:
                could, until = self._with_room(state, could, slot)
        return answer

    def _with_room(self, state: Places, could: int, slot: int) -> tuple[int, int]:
        """Without the last of these turns while its job cannot begin in a folded slot, and until when it would go on.

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
            if gap >> slot & span == span:
                return stop
        return 0

    def _state(self, known: Moment) -> Places:
        """What has begun, jobs in hand until they would be over; a pin that was missed is none."""
        for j, pin in self.pins.items():
            self.model.pinned[j] = pin if pin >= known.at else None
        state = Places.empty(self.model)
        state.end[:] = known.ends
        for j, end, crew in known.hand:
            self._book(state, j, known.at, end, crew)
        span = self._from(known.at)
        for h in known.kept:
            self.keeper.keep(state, h, span, self.keeper.wants(state, h, span))
        for j, end, _ in known.hand:
            for h in self.holds_to.get(j, ()):
                self._release(state, h, end)
        return state

    def _from(self, at: int) -> int:
        """All folded slots from a real one on."""
        first = self.folded[at]
        return self.everything >> first << first

    def _release(self, state: Places, h: int, at: int) -> None:
        """Give back, from a slot on, what a hold has kept and no job of its car uses."""
        span, free, berth = self._from(at), state.free, self.holds.berths[h]
        if berth is not None:
            while slots := free[berth.spare] & span:
                lower(free, berth.spare, berth.end, slots)
                rise(free, berth.first, berth.last, slots)
        for lane in self.holds.shuts[h]:
            free[lane] |= span
            for j, marks in enumerate(self.stock.marks):
                if lane in marks and PENDING < state.end[j] < NEVER and state.end[j] > at:
                    begin, stop = self.folded[max(at, state.start[j])], self.folded[state.end[j] - 1]
                    free[lane] &= ~((2 << stop) - (1 << begin))

    def _able(self, idle: int) -> int:
        """The turns of the jobs that these people, person k as bit k, can do."""
        if idle not in self.able:
            able = (j for j, work in enumerate(self.model.work) if not work or _any_of(self.groups[j], idle))
            self.able[idle] = sum(1 << self.turn[j] for j in able)
        return self.able[idle]

    def _opened(self, state: Places, j: int, beyond: int) -> Iterator[int]:
        """The turns of the jobs that wait for nothing more since this one is placed."""
        end, before = state.end, self.model.before
        for then, _, _ in self.model.after[j]:
            if end[then] == PENDING:
                for first, _, _ in before[then]:
                    if not PENDING < end[first] < beyond:
                        break
                else:
                    yield self.turn[then]


def _bits(people: tuple[int, ...]) -> int:
    """Person k as bit k."""
    bits = 0
    for person in people:
        bits |= 1 << person
    return bits


def _any_of(groups: Sequence[int], idle: int) -> bool:
    return any(group & idle == group for group in groups)


def _in_order(model: Model) -> list[list[Crew]]:
    """The crews of each job in the order of the people, none dearer than another."""
    alike: dict[int, Crew] = {}

    def plain(crew: Crew) -> Crew:
        return alike.setdefault(id(crew), crew.without_cost())

    return [sorted(map(plain, crews), key=lambda crew: crew.people) for crews in model.crews]

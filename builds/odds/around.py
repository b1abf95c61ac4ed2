"""Placing what is left around the jobs in hand, and around the cars that cannot be moved."""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heappush

from builds.odds.moment import Moment
from builds.planner.crews import Crew
from builds.planner.model import NEVER, PENDING, Model
from builds.planner.place import Draft, Placer, Places
from builds.planner.stock import lower, rise

NONE_BETWEEN = -1
"""A car that comes where others come later is placed by itself: with the jobs between them in the list a run takes
longer and is farther from a slow judge (150 jobs, 24 runs, three cars: judge 14, 23, 7; so 16, 18, 7; else 17, 16, 5).
"""


class Around(Placer):
    """Places jobs one by one in the order of a list, into a state that begins with what is in hand.

    `turn[j]` is where job j stands in the list. A hold keeps its places to the horizon until its last job is placed
    too; where somebody else comes there later, it is placed with all that its last job waits for, if it is over by
    then. Of crews that end a job in the same slot it takes the first in the order of the people.
    """

    def __init__(self, model: Model, order: Sequence[int]) -> None:
        super().__init__(model)
        self.stride, self.most_between = model.size + 1, NONE_BETWEEN
        self.crews = _in_order(model)
        self.draft = Draft(order, self.crews, model.earliest)
        self.turn = {j: turn for turn, j in enumerate(order)}
        self.pins = {j: pin for j, pin in enumerate(model.pinned) if pin is not None}
        self.holds_from = {j: [h for h, first in enumerate(self.holds.starts) if first == j] for j in self.holds.starts}
        self.holds_to = {j: [h for h, last in enumerate(self.holds.ends) if last == j] for j in self.holds.ends}
        self.needs = [[first for first, _, _ in before] for before in model.before]
        self.thens = [[then for then, _, _ in after] for after in model.after]

    def _begun(self, state: Places, first: int, heap: list[int], beyond: int) -> list[int]:
        """What was placed from number `first` on; what waits for nothing more comes into the heap."""
        end, needs, turn = state.end, self.needs, self.turn
        begun = []
        for j in state.order[first:]:
            if end[j] == NEVER:
                continue
            begun.append(j)
            if j in self.holds_to:
                for h in self.holds_to[j]:
                    self._release(state, h, end[j])
            for then in self.thens[j]:
                if end[then] == PENDING:
                    for needed in needs[then]:
                        if not PENDING < end[needed] < beyond:
                            break
                    else:
                        heappush(heap, turn[then])
        return begun

    def _put(self, state: Places, j: int, *, soon: int = 1) -> None:
        """Place a job, the start of a hold so that its car may be there until the hold is over.

        One that does not begin `soon` in any case is placed where nobody else comes any more.
        """
        held = self.holds_from.get(j)
        if held is None:
            self._job(self.draft, state, j)
        elif not (soon and self._is_in_the_way(state, held) and self._block(self.draft, state, j, self.turn)):
            self._open_ended(self.draft, state, j)

    def _is_in_the_way(self, state: Places, held: Sequence[int]) -> bool:
        """Whether anybody comes, at any time, to the places that these holds take."""
        keeper, span = self.keeper, self.everything
        return any(keeper.in_the_way(state, h, span, keeper.wants(state, h, span)) for h in held)

    def _state(self, known: Moment) -> Places:
        """What has begun, jobs in hand until they would be over; a pin that was missed is none."""
        for j, pin in self.pins.items():
            self.model.pinned[j] = pin if pin >= known.at else None
        self.now, state = known.at, Places.empty(self.model)
        state.end[:] = known.ends
        for j, end, crew in known.hand:
            self._book(state, j, known.at, end, crew)
        for j in self.clearing.jobs:
            if PENDING < known.ends[j] <= known.at:
                self.clearing.take(state.free, j, known.ends[j])
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


def _in_order(model: Model) -> list[list[Crew]]:
    """The crews of each job in the order of the people, none dearer than another."""
    alike: dict[int, Crew] = {}

    def plain(crew: Crew) -> Crew:
        return alike.setdefault(id(crew), crew.without_cost())

    return [sorted(map(plain, crews), key=lambda crew: crew.people) for crews in model.crews]

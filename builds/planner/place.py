"""Serial schedule generation: a draft in, each job placed as early as what is left allows."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from builds.planner.clearing import Clearing
from builds.planner.crews import Crew
from builds.planner.keep import Keeper
from builds.planner.model import NEVER, PENDING, Model
from builds.planner.stock import reach, take

MOST_BETWEEN = 24
"""Jobs beside its own that a block is placed together with."""


class Draft:
    """All that a search can change: the order of the list, who may do a job, and not before when.

    No link may contradict `order`; `crews[j]` and `earliest[j]` are those of the model or fewer
    and later ones.
    """

    __slots__ = ("crews", "earliest", "order")

    def __init__(self, order: Sequence[int], crews: list[list[Crew]], earliest: list[int]) -> None:
        self.order, self.crews, self.earliest = order, crews, earliest

    @classmethod
    def of(cls, model: Model, order: Sequence[int]) -> Draft:
        """The list in this order, and nothing else decided."""
        return cls(order, model.crews, model.earliest)

    def shared(self, other: Draft, order: Sequence[int]) -> int:
        """How many of the jobs of `order`, placed by the other draft, this one places alike."""
        for k, (j, mine) in enumerate(zip(order, self.order, strict=False)):
            if j != mine or self.crews[j] is not other.crews[j] or self.earliest[j] != other.earliest[j]:
                return k
        return len(order)


class Places:
    """The state of a pass: start, end and crew by job (end PENDING: not reached, NEVER: no place).

    `free[lane]` holds the free slots of a lane of the model's stock, folded slot k as bit k;
    `order` the jobs as they were placed, `marks` the states on the way, to start a pass from.
    """

    __slots__ = ("crew", "end", "free", "marks", "order", "start")

    def __init__(
        self, start: list[int], end: list[int], crew: list[tuple[int, ...]], free: list[int], order: list[int]
    ) -> None:
        self.start, self.end, self.crew, self.free, self.order = start, end, crew, free, order
        self.marks: list[Places] = []

    @classmethod
    def empty(cls, model: Model) -> Places:
        """Nothing placed, every lane of the stock as it begins."""
        size = model.size
        return cls([0] * size, [PENDING] * size, [()] * size, model.stock.blank[:], [])

    def copy(self) -> Places:
        """The same state, to go on from without disturbing this one."""
        return Places(self.start[:], self.end[:], self.crew[:], self.free[:], self.order[:])

    def take(self, other: Places) -> None:
        """Become the other state."""
        self.start, self.end, self.crew = other.start, other.end, other.crew
        self.free, self.order = other.free, other.order


class Placer:
    """Places the drafts of a model, no job before slot `now`."""

    def __init__(self, model: Model) -> None:
        self.model, self.stock, self.holds, self.now = model, model.stock, model.holds, 0
        self.keeper, self.clearing, self.everything = Keeper(model), Clearing(model), model.everything
        self.folded, self.real = model.fold.folded, model.fold.real
        self.stride, self.most_between = max(8, model.size // 8), MOST_BETWEEN

    def place(self, draft: Draft, kin: tuple[Draft, Places] | None = None) -> Places:
        """Place the jobs of the draft one after the other.

        A hold is placed as a block: its first job together with all that its last job waits for.
        One that finds no room stays open to the horizon, and so comes last, unless its car is there
        already. `kin` is a draft that begins alike and how it was placed: what both share is not
        placed anew. A fact that finds its place taken is tried before all else, and then just is there.
        """
        tries: Counter[int] = Counter()
        while True:
            state = self._pass(draft, None if tries else kin, tries)
            pushed = [j for j in self.model.facts if state.end[j] != 0 and tries[j] < 2]
            if not pushed:
                return state
            tries.update(pushed)

    def _pass(self, draft: Draft, kin: tuple[Draft, Places] | None, tries: Counter[int]) -> Places:
        """Place the jobs of the draft, the facts among `tries` first, those tried before whatever is in their way."""
        state = self._begin(draft, kin)
        order, blocks = draft.order, self.holds.blocks
        position = {j: k for k, j in enumerate(order)} if blocks else {}
        done = len(state.order)
        marks, mark = state.marks, done + self.stride
        later: list[int] = []
        for j, tried in tries.most_common():
            if tried > 1:
                self._open_ended(draft, state, j, firm=True)
            else:
                self._block(draft, state, j, position)
        for j in order[done:]:
            if state.end[j] != PENDING:
                continue
            if len(state.order) >= mark and not later:
                marks.append(state.copy())
                mark = len(state.order) + self.stride
            placed = self._block if j in blocks else self._job
            if not placed(draft, state, j, position) and not (j in blocks and self._at_once(draft, state, j)):
                later.append(j)
        for j in later:
            if state.end[j] == PENDING and not (self._untied(state, j) and self._block(draft, state, j, position)):
                self._open_ended(draft, state, j)
        if later:
            state.order, state.marks = list(order), []
        return state

    def _begin(self, draft: Draft, kin: tuple[Draft, Places] | None) -> Places:
        """The furthest state on the way of the kin that is on the way of this draft too."""
        if kin is None or not kin[1].marks:
            return Places.empty(self.model)
        shared = draft.shared(kin[0], kin[1].order)
        marks = [mark for mark in kin[1].marks if len(mark.order) <= shared]
        state = marks[-1].copy() if marks else Places.empty(self.model)
        state.marks = marks
        return state

    def _job(self, draft: Draft, state: Places, j: int, _: dict[int, int] | None = None, at: int = 0) -> bool:
        """Place one job no sooner than slot `at`, with the crew that ends it first.

        False when a job before it was not reached yet.
        """
        model, end = self.model, state.end
        if self.now > at:
            at = self.now
        if draft.earliest[j] > at:
            at = draft.earliest[j]
        for first, wait, ready in model.before[j]:
            ended = end[first]
            if ended == PENDING:
                return False
            opens = ended + wait if ready is None or ended == NEVER else ready[ended]
            if opens > at:
                at = opens
        pinned, work = model.pinned[j], model.work[j]
        if pinned is not None:
            at = pinned if at <= pinned else NEVER
        if at + work > model.horizon or not draft.crews[j]:
            end[j] = NEVER
        elif work:
            spot = self._earliest(state, j, at, draft.crews[j]) if pinned is None else self._at(state, j, at, draft)
            if spot:
                self._book(state, j, *spot)
            else:
                end[j] = NEVER
        else:
            state.start[j] = end[j] = at
            state.crew[j] = draft.crews[j][0].people
        state.order.append(j)
        return True

    def _earliest(self, state: Places, j: int, at: int, crews: list[Crew]) -> tuple[int, int, Crew] | None:
        """Start, end and crew for the earliest end from slot `at` on, a crew's cost counted in."""
        work, splits, clears = self.model.work[j], self.model.splits[j], self.clearing.books[j]
        free, real, soonest, room = state.free, self.real, self.folded[at], self._room(state, j)
        best, spot = NEVER, None
        for crew in crews if room >> soonest else ():
            axis, cost = crew.axis, crew.cost
            slots, rank = axis.slots, axis.rank
            last = rank[soonest] + work - 1
            if last >= len(slots) or real[slots[last]] + cost >= best:
                continue
            gap = room
            for person in crew.people:
                gap &= free[person]
            start, here = soonest, gap & axis.open
            while ahead := here >> start:
                start += (ahead & -ahead).bit_length() - 1
                if splits:
                    last = rank[start] + work - 1
                    if last >= len(slots):
                        break
                    stop = slots[last] + 1
                    taken = ~(gap >> start) & (1 << stop - start) - 1
                else:
                    stop = start + work
                    taken = ~(here >> start) & (1 << work) - 1
                    if stop >= len(real):
                        break
                over = real[stop - 1]
                if over + cost >= best:
                    break
                if not taken and not (clears and not self.clearing.is_free(free, j, over + 1)):
                    best, spot = over + cost, (real[start], over + 1, crew)
                    break
                start += taken.bit_length() or 1
        return spot

    def _room(self, state: Places, j: int) -> int:
        """The slots that its stations and where its car stands leave the job, whoever works on it."""
        room, free = self.everything, state.free
        for lane in self.stock.room[j]:
            room &= free[lane]
        for berth in self.stock.kept[j]:
            room &= free[berth[1]] | free[berth[3]] if berth[0] == 1 else reach(free, berth)
        return room

    def _at(self, state: Places, j: int, at: int, draft: Draft) -> tuple[int, int, Crew] | None:
        """Start, end and crew for the earliest end of a job that may only start in slot `at`."""
        tried = (self._earliest(state, j, at, [crew]) for crew in draft.crews[j])
        spots = [spot for spot in tried if spot and spot[0] == at]
        return min(spots, key=lambda spot: spot[1] + spot[2].cost, default=None)

    def _book(self, state: Places, j: int, start: int, stop: int, crew: Crew) -> None:
        state.start[j], state.end[j], state.crew[j] = start, stop, crew.people
        free, stock = state.free, self.stock
        first_slot, last_slot = self.folded[start], self.folded[stop - 1]
        span = (2 << last_slot) - (1 << first_slot)
        rest = self.everything ^ span
        for person in crew.people:
            free[person] &= rest
        for lane, higher in stock.lowers[j]:
            free[lane] &= rest | free[higher]
        for lane in stock.fills[j]:
            free[lane] &= rest
        for berth in stock.kept[j]:
            take(free, berth, span)
        if self.clearing.books[j]:
            self.clearing.take(free, j, stop)

    def _block(self, draft: Draft, state: Places, start: int, position: dict[int, int]) -> bool:
        """Place the start of a hold with all that its end waits for, or nothing of it.

        Jobs that stand between them in the list are placed among them, unless they are many.
        """
        block, starts, ends = self.holds.blocks[start], self.holds.starts, self.holds.ends
        waiting = [j for j in block.members if state.end[j] == PENDING]
        last = max(position[j] for j in waiting)
        between = draft.order[position[start] : last + 1]
        if len(between) <= len(waiting) + self.most_between:
            others = (j for j in between if state.end[j] == PENDING and j not in block.barred)
            waiting += [j for j in others if j not in block.members]
        queue = sorted(waiting, key=lambda j: (j not in block.leading, position[j]))
        held = [h for h in block.held if state.end[starts[h]] == PENDING]
        tied = {*(starts[h] for h in held), *(ends[h] for h in held)}
        sooner: dict[int, int] = {}
        while True:
            trial = state.copy()
            for j in queue:
                self._job(draft, trial, j, at=sooner.get(j, 0))
            if any(trial.end[j] in (PENDING, NEVER) for j in tied):
                return False
            clash = self.keeper.keep_all(trial, held)
            if clash is None:
                state.take(trial)
                return True
            sooner.update((clash,))

    def _untied(self, state: Places, j: int) -> bool:
        """Whether a hold that the block of the job waited for has begun by now, so that it is worth another try."""
        starts = self.holds.starts
        return j in self.holds.blocks and any(state.end[starts[h]] != PENDING for h in self.holds.blocks[j].held)

    def _at_once(self, draft: Draft, state: Places, j: int) -> bool:
        """Place the start of a hold without an end in its turn, when it is a fact or in hand; or false."""
        job = self.model.problem.jobs[j]
        return (job.started or job.pinned is not None) and self._open_ended(draft, state, j)

    def _open_ended(self, draft: Draft, state: Places, j: int, *, firm: bool = False) -> bool:
        """Place a job whose hold finds no end within the plan: when nobody else comes there any more.

        A `firm` one asks nobody. False when a job before it was not reached yet.
        """
        held = [h for h, first in enumerate(self.holds.starts) if first == j]
        keeper, everything = self.keeper, self.everything
        taken = [keeper.in_the_way(state, h, everything, keeper.wants(state, h, everything)) for h in held if not firm]
        trial = state.copy()
        if not self._job(draft, trial, j, at=max((self.real[slots.bit_length()] for slots in taken), default=0)):
            return False
        if trial.end[j] != NEVER:
            span = everything >> self.folded[trial.start[j]] << self.folded[trial.start[j]]
            for h in held:
                wants = keeper.wants(trial, h, span)
                if not firm and keeper.in_the_way(trial, h, span, wants):
                    state.end[j] = NEVER
                    state.order.append(j)
                    return True
                keeper.keep(trial, h, span, wants)
        state.take(trial)
        return True

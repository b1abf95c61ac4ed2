"""Serial schedule generation: a list of jobs in, each placed as early as what is left allows."""

from __future__ import annotations

from collections.abc import Sequence

from .crews import Crew
from .model import NEVER, PENDING, Model


class Places:
    """The state of a pass: start, end and crew by job (end PENDING: not reached, NEVER: no place).

    `free[row]` holds the free slots of a row of the model's stock, slot k as bit k.
    """

    __slots__ = ("crew", "end", "free", "start")

    def __init__(
        self, start: list[int], end: list[int], crew: list[tuple[int, ...]], free: list[int]
    ) -> None:
        self.start, self.end, self.crew, self.free = start, end, crew, free

    @classmethod
    def empty(cls, model: Model) -> Places:
        """Nothing placed, every slot of every row free."""
        size = model.size
        everything = (1 << model.horizon) - 1
        return cls([0] * size, [PENDING] * size, [()] * size, [everything] * model.rows)

    def copy(self) -> Places:
        """The same state, to go on from without disturbing this one."""
        return Places(self.start[:], self.end[:], self.crew[:], self.free[:])

    def take(self, other: Places) -> None:
        """Become the other state."""
        self.start, self.end, self.crew, self.free = other.start, other.end, other.crew, other.free


class Placer:
    """Places the jobs of a model; the order of the list is all that a search can change."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self.everything = (1 << model.horizon) - 1

    def place(self, order: Sequence[int], state: Places | None = None) -> Places:
        """Place the jobs of `order`, which no link may contradict, one after the other.

        A hold is placed as a block: its first job together with all that its last job waits for.
        One that finds no room stays open to the horizon, and so comes last.
        """
        state = state or Places.empty(self.model)
        blocks, end = self.model.blocks, state.end
        position = {j: k for k, j in enumerate(order)} if blocks else {}
        later = []
        for j in order:
            if end[j] != PENDING:
                continue
            if j in blocks:
                if not self._block(state, j, position):
                    later.append(j)
                end = state.end
            elif not self._job(state, j):
                later.append(j)
        for j in later:
            if end[j] == PENDING:
                self._open_ended(state, j)
        return state

    def _job(self, state: Places, j: int, at: int = 0) -> bool:
        """Place one job no sooner than slot `at`, with the crew that ends it first.

        False when a job before it was not reached yet.
        """
        model, end = self.model, state.end
        if model.earliest[j] > at:
            at = model.earliest[j]
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
        if at + work > model.horizon or not model.crews[j]:
            end[j] = NEVER
        elif work:
            found = self._earliest(state, j, at)
            if found and (pinned is None or found[0] == pinned):
                self._book(state, j, *found)
            else:
                end[j] = NEVER
        else:
            state.start[j] = end[j] = at
            state.crew[j] = model.crews[j][0].people
        return True

    def _earliest(self, state: Places, j: int, at: int) -> tuple[int, int, Crew] | None:
        """Start, end and crew for the earliest end from slot `at` on, a crew's cost counted in."""
        model, free = self.model, state.free
        work, splits = model.work[j], model.splits[j]
        room = self.everything
        for row in model.room[j]:
            room &= free[row]
        best, found = NEVER, None
        for crew in model.crews[j]:
            axis, cost = crew.axis, crew.cost
            gap = room
            for person in crew.people:
                gap &= free[person]
            here = gap & axis.open
            slots, rank, start = axis.slots, axis.rank, at
            if not splits:
                gap = here
            while True:
                ahead = here >> start
                if not ahead:
                    break
                start += (ahead & -ahead).bit_length() - 1
                if splits:
                    last = rank[start] + work - 1
                    if last >= len(slots):
                        break
                    stop = slots[last] + 1
                else:
                    stop = start + work
                if stop + cost >= best:
                    break
                span = (1 << (stop - start)) - 1
                taken = span ^ (gap >> start & span)
                if not taken:
                    best, found = stop + cost, (start, stop, crew)
                    break
                start += taken.bit_length()
        return found

    def _book(self, state: Places, j: int, start: int, stop: int, crew: Crew) -> None:
        state.start[j], state.end[j], state.crew[j] = start, stop, crew.people
        free, model = state.free, self.model
        rest = self.everything ^ ((1 << stop) - (1 << start))
        for person in crew.people:
            free[person] &= rest
        for row in model.marks[j]:
            free[row] &= rest
        for first, units, last in model.books[j]:
            for row in range(first, last - units):
                free[row] &= rest | free[row + units]
            for row in range(max(first, last - units), last):
                free[row] &= rest

    def _block(self, state: Places, start: int, position: dict[int, int]) -> bool:
        """Place the start of a hold with all that its end waits for, or nothing of it."""
        model = self.model
        members, leading = model.blocks[start]
        queue = sorted(
            (j for j in members if state.end[j] == PENDING),
            key=lambda j: (j not in leading, position[j]),
        )
        held = [h for h, j in enumerate(model.starts) if j in members]
        sooner: dict[int, int] = {}
        while True:
            trial = state.copy()
            for j in queue:
                self._job(trial, j, sooner.get(j, 0))
            if any(trial.end[model.ends[h]] in (PENDING, NEVER) for h in held):
                return False
            clash = self._shut(trial, held)
            if clash is None:
                state.take(trial)
                return True
            sooner.update((clash,))

    def _shut(self, state: Places, held: list[int]) -> tuple[int, int] | None:
        """Shut held stations to other cars; or the start of a hold and the slot to try it from."""
        spans = []
        for h in held:
            first, last = self.model.starts[h], self.model.ends[h]
            if state.end[first] == NEVER:
                continue
            start = state.start[first]
            span = (1 << (max(state.end[last], start + 1) - start)) - 1
            taken = span ^ (state.free[self.model.clear[h]] >> start & span)
            if taken:
                skip = (taken & -taken).bit_length() - 1
                run = taken >> skip
                return first, start + skip + (~run & (run + 1)).bit_length() - 1
            spans.append((h, span << start))
        for h, span in spans:
            for row in self.model.shuts[h]:
                state.free[row] &= self.everything ^ (span & self.everything)
        return None

    def _open_ended(self, state: Places, j: int) -> None:
        """Place a job whose hold finds no end within the plan: after every other car's job."""
        model, at = self.model, 0
        held = [h for h, first in enumerate(model.starts) if first == j]
        for h in held:
            used = self.everything ^ state.free[model.clear[h]]
            at = max(at, used.bit_length())
        self._job(state, j, at)
        if state.end[j] != NEVER:
            for h in held:
                for row in model.shuts[h]:
                    state.free[row] &= (1 << state.start[j]) - 1

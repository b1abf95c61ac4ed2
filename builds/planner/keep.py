"""Keeping a station for a car that cannot be moved, in the state of a pass."""

from __future__ import annotations

from typing import TYPE_CHECKING

from builds.planner.model import NEVER, PENDING, Model
from builds.planner.stock import lower, rise

if TYPE_CHECKING:
    from builds.planner.place import Places


class Keeper:
    """Takes from the lanes of a state what the holds of a model want; slots are folded ones."""

    def __init__(self, model: Model) -> None:
        self.holds = model.holds
        self.folded, self.real = model.fold.folded, model.fold.real

    def keep_all(self, state: Places, held: list[int]) -> tuple[int, int] | None:
        """Keep what these holds want; or, at the first that cannot, its first job and the slot to try it from.

        The slot is a real one, later than where the job is now; the state is then of no use.
        """
        for h in held:
            first = self.holds.starts[h]
            begin, over = state.start[first], state.end[self.holds.ends[h]]
            if state.end[first] == NEVER or over <= begin:
                continue
            span = (2 << self.folded[over - 1]) - (1 << self.folded[begin])
            wants = self.wants(state, h, span)
            taken = self.in_the_way(state, h, span, wants)
            if taken:
                skip = (taken & -taken).bit_length() - 1
                run = taken >> skip
                return first, self.real[skip + (~run & (run + 1)).bit_length() - 1]
            self.keep(state, h, span, wants)
        return None

    def in_the_way(self, state: Places, h: int, span: int, wants: list[int]) -> int:
        """The slots of the span in which hold h finds its station full, or its car elsewhere."""
        taken, free, berth = 0, state.free, self.holds.berths[h]
        for lane in self.holds.clear[h]:
            taken |= span & ~free[lane]
        if berth is not None:
            for lane, slots in enumerate(wants, berth.first):
                taken |= slots & ~free[lane] if lane < berth.last else slots
        return taken

    def keep(self, state: Places, h: int, span: int, wants: list[int]) -> None:
        """Take what hold h wants in a span in which nothing is in its way."""
        free, berth = state.free, self.holds.berths[h]
        if berth is not None:
            for slots in wants:
                lower(free, berth.first, berth.last, slots)
                rise(free, berth.spare, berth.end, slots)
        for lane in self.holds.shuts[h]:
            free[lane] ^= free[lane] & span

    def wants(self, state: Places, h: int, span: int) -> list[int]:
        """By unit, the slots in which hold h takes one more than its car has there already."""
        berth = self.holds.berths[h]
        if berth is None:
            return []
        level, end, folded = [0] * berth.units, state.end, self.folded
        first = (span & -span).bit_length() - 1
        for j, units in self.holds.own[h]:
            if PENDING < end[j] < NEVER and folded[end[j] - 1] >= first:
                slots = (2 << folded[end[j] - 1]) - (1 << folded[state.start[j]])
                for _ in range(units):
                    rise(level, 0, berth.units, slots)
        for lane in range(berth.spare, berth.end):
            rise(level, 0, berth.units, state.free[lane])
        return [span & ~slots for slots in reversed(level)]

"""Hours in which work goes on, in minutes: where work ends that is begun at some moment."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from itertools import accumulate

from builds.planner.fields import Windows

NEVER = float("inf")
"""The end of work that finds no place before the horizon."""


class Hours:
    """Windows for work that may stop when one closes and go on in the next.

    `before[k]` minutes are open before window k; the first window is an empty one before time.
    """

    __slots__ = ("before", "lengths", "opens", "total")

    def __init__(self, windows: Windows, slot_minutes: int) -> None:
        self.opens = [-1, *(begin * slot_minutes for begin, _ in windows)]
        self.lengths = [0, *((end - begin) * slot_minutes for begin, end in windows)]
        self.before = [0, *accumulate(self.lengths)]
        self.total = self.before[-1]

    def start(self, at: float, work: float) -> float:
        """The first minute worked, from `at` on; `at` itself when there is nothing to do."""
        if work <= 0 or at == NEVER:
            return at
        k = bisect_right(self.opens, at) - 1
        if at < self.opens[k] + self.lengths[k]:
            return at
        return self.opens[k + 1] if k + 1 < len(self.opens) else NEVER

    def end(self, at: float, work: float) -> float:
        """Where `work` minutes begun as soon as possible from `at` on are done; or NEVER.

        Two searches in sorted lists, so logarithmic in the windows. `at` from 0 on.
        """
        if work <= 0:
            return at
        k = bisect_right(self.opens, at) - 1
        into, length = at - self.opens[k], self.lengths[k]
        target = self.before[k] + (into if into < length else length) + work
        if target > self.total:
            return NEVER
        last = bisect_left(self.before, target, k) - 1
        return self.opens[last] + target - self.before[last]


class Sittings:
    """Windows for work that is done in one sitting: it begins where `planned` minutes fit.

    Nobody knows at the start how long it will take. A sitting that overruns its window is seen
    through, however late; one that is done sooner still waited for a window long enough.
    """

    __slots__ = ("firsts", "lasts")

    def __init__(self, windows: Windows, slot_minutes: int, planned: float) -> None:
        long_enough = [
            (begin * slot_minutes, end * slot_minutes - planned)
            for begin, end in windows
            if (end - begin) * slot_minutes >= planned
        ]
        self.firsts = [first for first, _ in long_enough]
        self.lasts = [last for _, last in long_enough]

    def start(self, at: float, work: float) -> float:
        """The moment from `at` on at which the sitting begins; or NEVER."""
        k = bisect_left(self.lasts, at)
        return max(at, self.firsts[k]) if k < len(self.lasts) else NEVER

    def end(self, at: float, work: float) -> float:
        """Where a sitting of `work` minutes begun as soon as possible from `at` on ends."""
        return self.start(at, work) + work

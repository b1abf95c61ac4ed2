"""The slots in which a crew can work on a job, as one axis on which work starts and ends."""

from __future__ import annotations

from array import array
from collections.abc import Iterable
from itertools import chain, repeat

from .fields import BOUND, Windows

BEYOND = 4 * BOUND
"""Later than any slot of any axis."""


class Axis:
    """The slots that several lists of windows share, numbered 0, 1, 2 ... in order.

    `slots[k]` is the k-th of them, `rank[s]` how many lie before slot s, for s = 0 .. horizon,
    `open` the same slots as one integer, slot s as bit s.
    """

    __slots__ = ("open", "rank", "slots")

    def __init__(self, spans: Windows, horizon: int) -> None:
        self.slots = array("i", chain.from_iterable(range(begin, end) for begin, end in spans))
        ranks: list[Iterable[int]] = []
        at = count = bits = 0
        for begin, end in spans:
            ranks += (repeat(count, begin - at), range(count, count + end - begin))
            bits |= (1 << end) - (1 << begin)
            at, count = end, count + end - begin
        ranks.append(repeat(count, horizon + 1 - at))
        self.rank = array("i", chain.from_iterable(ranks))
        self.open = bits

    def end(self, at: int, work: int) -> int:
        """One past the last slot of `work` begun at slot `at` or later; past all slots if none."""
        last = self.rank[min(at, len(self.rank) - 1)] + work - 1
        if work == 0:
            return at
        return self.slots[last] + 1 if last < len(self.slots) else BEYOND


def clip(windows: Windows | None, horizon: int) -> Windows:
    """Windows cut to [0, horizon); None, always open, becomes the whole of it."""
    if windows is None:
        return ((0, horizon),)
    cut = ((max(0, begin), min(horizon, end)) for begin, end in windows)
    return tuple((begin, end) for begin, end in cut if begin < end)


def overlap(first: Windows, second: Windows) -> Windows:
    """The windows in which both of two sorted lists of windows are open; linear in both."""
    shared: list[tuple[int, int]] = []
    i = j = 0
    while i < len(first) and j < len(second):
        begin = max(first[i][0], second[j][0])
        end = min(first[i][1], second[j][1])
        if begin < end:
            shared.append((begin, end))
        if first[i][1] < second[j][1]:
            i += 1
        else:
            j += 1
    return tuple(shared)


def length(windows: Windows) -> int:
    """How many slots the windows cover."""
    return sum(end - begin for begin, end in windows)

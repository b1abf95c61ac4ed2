"""The slots in which a crew can work on a job, as one axis on which work starts and ends."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain, repeat

from builds.planner.fields import Windows


class Fold:
    """The slots with the nights folded: each stretch in which nobody can work becomes one slot.

    `folded[s]` is the number of slot s among them, for s = 0 .. horizon, `real[f]` the first slot
    of number f, the horizon after the last; `size` how many there are. Work begins and ends in
    slots that are kept whole, so two pieces of work overlap here when they do on the clock.
    """

    __slots__ = ("folded", "real", "size")

    def __init__(self, spans: Windows, horizon: int) -> None:
        real: list[int] = []
        folded: list[int] = []
        at = 0
        for begin, end in (*spans, (horizon, horizon)):
            if begin > at:
                folded.extend(repeat(len(real), begin - at))
                real.append(at)
            folded.extend(range(len(real), len(real) + end - begin))
            real.extend(range(begin, end))
            at = end
        self.size = len(real)
        folded.append(self.size)
        real.append(horizon)
        self.folded, self.real = tuple(folded), tuple(real)

    def windows(self, spans: Windows) -> Windows:
        """Windows that lie within those kept whole, by folded number."""
        return tuple((self.folded[begin], self.folded[end - 1] + 1) for begin, end in spans)


class Axis:
    """The slots that several lists of windows share, numbered 0, 1, 2 ... in order.

    `slots[k]` is the k-th of them, `rank[s]` how many lie before slot s, for s = 0 .. horizon,
    `open` the same slots as one integer, slot s as bit s; slots are folded ones.
    """

    __slots__ = ("open", "rank", "slots")

    def __init__(self, spans: Windows, horizon: int) -> None:
        self.slots = tuple(chain.from_iterable(range(begin, end) for begin, end in spans))
        ranks: list[Iterable[int]] = []
        at = count = bits = 0
        for begin, end in spans:
            ranks += (repeat(count, begin - at), range(count, count + end - begin))
            bits |= (1 << end) - (1 << begin)
            at, count = end, count + end - begin
        ranks.append(repeat(count, horizon + 1 - at))
        self.rank = tuple(chain.from_iterable(ranks))
        self.open = bits

    def last(self, at: int, work: int) -> int | None:
        """The last slot of `work` begun in the first open slot from `at` on; None past the end."""
        last = self.rank[at] + work - 1
        return self.slots[last] if last < len(self.slots) else None


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


def joined(several: Iterable[Windows]) -> Windows:
    """The windows in which any of several lists of windows is open."""
    merged: list[tuple[int, int]] = []
    for begin, end in sorted(chain.from_iterable(several)):
        if merged and begin <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((begin, end))
    return tuple(merged)


def length(windows: Windows) -> int:
    """How many slots the windows cover."""
    return sum(end - begin for begin, end in windows)

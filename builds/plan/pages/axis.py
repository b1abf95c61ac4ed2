"""The time axis of the plan strip: hours that somebody works drawn wide, nights folded narrow."""

from collections.abc import Iterable
from dataclasses import dataclass

SLOT_WIDTH = 22
FOLD_WIDTH = 24
SHORT_GAP = 6  # slots: a meal, not a night; drawn as it is


@dataclass(frozen=True)
class AxisStretch:
    """Slots [start, end) drawn from x to x + width; `fold` when nobody is in."""

    start: int
    end: int
    x: int
    width: int
    fold: bool

    def at(self, slot: int) -> int:
        return self.x + round(self.width * (slot - self.start) / max(1, self.end - self.start))


class FoldedAxis:
    """Where a slot stands, in px from the left of the drawing."""

    def __init__(self, open_at: Iterable[tuple[int, int]], start: int, end: int) -> None:
        """`open_at` are slots in which somebody is in; all of [start, end) is drawn."""
        self.stretches: list[AxisStretch] = []
        self.start, self.end = start, end
        at = start
        for begin, until in _joined(open_at, start, end):
            if at < begin:
                self._add(at, begin, fold=begin - at > SHORT_GAP)
            self._add(begin, until, fold=False)
            at = until
        if at < end or not self.stretches:
            self._add(at, max(end, at + 1), fold=end - at > SHORT_GAP)

    def _add(self, start: int, end: int, *, fold: bool) -> None:
        width = FOLD_WIDTH if fold else SLOT_WIDTH * (end - start)
        self.stretches.append(AxisStretch(start, end, self.width, width, fold))

    @property
    def width(self) -> int:
        return self.stretches[-1].x + self.stretches[-1].width if self.stretches else 0

    def x(self, slot: int) -> int:
        """Clamped to the drawing; at the edge of a fold, the side that is worked."""
        if slot <= self.start:
            return 0
        for stretch in self.stretches:
            if slot <= stretch.end:
                return stretch.at(slot)
        return self.width


def _joined(windows: Iterable[tuple[int, int]], start: int, end: int) -> list[tuple[int, int]]:
    """Windows within [start, end), sorted, joined where they overlap or touch."""
    joined: list[tuple[int, int]] = []
    for begin, until in sorted(windows):
        begin, until = max(begin, start), min(until, end)
        if begin >= until:
            continue
        if joined and begin <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], until))
        else:
            joined.append((begin, until))
    return joined

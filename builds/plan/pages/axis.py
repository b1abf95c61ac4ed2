"""The time axis of the plan strip, in per cent of its width: hours that somebody works wide, nights folded narrow."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builds.planner.axis import joined
from builds.planner.fields import Windows

WIDTH = 99.0  # per cent; what is left is for the line of the last event
FOLD = 0.012  # how wide a night is drawn, measured by all hours that are worked
SHORT_GAP = 6  # slots: a meal, not a night; drawn as it is


@dataclass(frozen=True)
class AxisStretch:
    """Slots [start, end) drawn from x to x + width, per cent; `fold` when nobody is in."""

    start: int
    end: int
    x: float
    width: float
    fold: bool

    def at(self, slot: int) -> float:
        return self.x + self.width * (slot - self.start) / (self.end - self.start)


class FoldedAxis:
    """Where a slot stands, in per cent of the width of the drawing."""

    def __init__(self, open_at: Iterable[tuple[int, int]], start: int, end: int) -> None:
        """`open_at` are slots in which somebody is in; all of [start, end) is drawn."""
        self.start, self.end = start, max(end, start + 1)
        within = [(max(begin, self.start), min(until, self.end)) for begin, until in open_at]
        somebody = joined([[window for window in within if window[0] < window[1]]])
        pieces = list(_pieces(somebody, self.start, self.end))
        worked = sum(until - begin for begin, until, fold in pieces if not fold)
        shares = [FOLD * max(worked, 1) if fold else until - begin for begin, until, fold in pieces]
        x, unit = 0.0, WIDTH / sum(shares)
        self.stretches: list[AxisStretch] = []
        for (begin, until, fold), share in zip(pieces, shares, strict=True):
            self.stretches.append(AxisStretch(begin, until, x, share * unit, fold))
            x += share * unit

    def x(self, slot: int) -> float:
        """Clamped to the drawing, with two decimals; at the edge of a fold, the side that is worked."""
        if slot <= self.start:
            return 0.0
        for stretch in self.stretches:
            if slot <= stretch.end:
                return round(stretch.at(slot), 2)
        return WIDTH


def _pieces(worked: Windows, start: int, end: int) -> Iterator[tuple[int, int, bool]]:
    """[start, end) cut into what is worked and what is between, which is folded unless it is short."""
    at = start
    for begin, until in worked:
        if at < begin:
            yield at, begin, begin - at > SHORT_GAP
        yield begin, until, False
        at = until
    if at < end:
        yield at, end, end - at > SHORT_GAP

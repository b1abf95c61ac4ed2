"""Who gets what is on the shelf, and from where: by urgency, then by date, then who asked first."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

RANKS = ("safety", "needed", "wanted")


@dataclass(frozen=True, slots=True)
class Want:
    """So many of a part for a job; `rank` its urgency, `due` when its car must leave, if at all."""

    id: int
    part: int
    quantity: int
    rank: str
    due: datetime | None
    asked_at: datetime

    @property
    def turn(self) -> tuple[int, bool, float, datetime, int]:
        due = self.due.timestamp() if self.due else 0.0
        return (RANKS.index(self.rank), self.due is None, due, self.asked_at, self.id)


@dataclass(frozen=True, slots=True)
class Allotment:
    """What a want gets of what is there; `behind` are the wants (ids) that were served first."""

    want: int
    promised: int
    short: int
    behind: tuple[int, ...] = ()


def share_out(held: Mapping[int, int], wants: Iterable[Want]) -> dict[int, Allotment]:
    """Promise what is held (quantity by part) to the wants; every want is answered, by id.

    A safety job of the nearest event goes first, whoever tapped first. A want that cannot be
    served whole takes what is left, and is told whom it stands behind. ValueError for an unknown
    rank. Source: the trade's own order of ranks, common practice, no source.
    """
    left = dict(held)
    served: dict[int, list[int]] = defaultdict(list)
    allotted: dict[int, Allotment] = {}
    for want in sorted(wants, key=lambda want: want.turn):
        promised = min(want.quantity, max(0, left.get(want.part, 0)))
        short = want.quantity - promised
        behind = tuple(served[want.part]) if short else ()
        allotted[want.id] = Allotment(want.id, promised, short, behind)
        if promised:
            left[want.part] -= promised
            served[want.part].append(want.id)
    return allotted


@dataclass(frozen=True, slots=True)
class Pick:
    """So many from one place for a want."""

    want: int
    place: int
    quantity: int


def picks(stock: Mapping[int, Sequence[tuple[int, int]]], wants: Iterable[Want]) -> dict[int, tuple[Pick, ...]]:
    """From which places each want takes what it is promised, by id.

    `stock` has, by part, (place, quantity) in walking order; the most urgent take from the first.
    """
    left = {part: [list(stack) for stack in rows] for part, rows in stock.items()}
    picked: dict[int, tuple[Pick, ...]] = {}
    for want in sorted(wants, key=lambda want: want.turn):
        asked, taken = want.quantity, []
        for stack in left.get(want.part, ()):
            some = min(asked, stack[1])
            if some > 0:
                taken.append(Pick(want.id, stack[0], some))
                stack[1] -= some
                asked -= some
        picked[want.id] = tuple(taken)
    return picked

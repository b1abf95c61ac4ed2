"""What went into cars and jobs, from the moves that stand; whole minor units, never a float."""

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from parts.engine.ledger import AT_HAND

CarPart = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Cost:
    """Minor units, and how many things have no price."""

    minor: int = 0
    unpriced: int = 0

    def __add__(self, other: "Cost") -> "Cost":
        return Cost(self.minor + other.minor, self.unpriced + other.unpriced)


@dataclass(frozen=True, slots=True)
class Moved:
    """A move that stands: keys of part, car and job; the kinds of place at its ends.

    `source_car` and `target_car` are None where that end is no car; `job` is what it was made for
    and `job_car` the car of that job.
    """

    part: int
    verb: str
    quantity: int
    source: str
    source_car: int | None
    target: str
    target_car: int | None
    job: int | None
    job_car: int | None


def into_cars(moves: Iterable[Moved]) -> Counter[CarPart]:
    """How much of each part went into each car, by (car, part), in the part's unit.

    What goes on counts, what comes off to be used again counts no more, and what comes off to the
    scrap was used up on the car. What was scrapped for a job without ever going on was used up too.
    """
    amounts: Counter[CarPart] = Counter()
    for move in moves:
        if move.target_car is not None:
            amounts[move.target_car, move.part] += move.quantity
        if move.source_car is not None and move.target != "scrap":
            amounts[move.source_car, move.part] -= move.quantity
        if _used_up(move) and move.job_car is not None:
            amounts[move.job_car, move.part] += move.quantity
    return amounts


def into_jobs(moves: Iterable[Moved]) -> Counter[CarPart]:
    """How much of each part was fitted or used up for each job, by (job, part)."""
    amounts: Counter[CarPart] = Counter()
    for move in moves:
        if move.job is not None and (move.verb == "fit" or _used_up(move)):
            amounts[move.job, move.part] += move.quantity
    return amounts


def _used_up(move: Moved) -> bool:
    return move.job is not None and move.verb == "scrap" and move.source in AT_HAND


def price(unit_price: int | None, quantity: int) -> Cost:
    """Of so many at `unit_price` minor units; without a price it is one thing unpriced.

    Raises nothing: nought of anything costs nothing, priced or not.
    """
    if not quantity:
        return Cost()
    return Cost(unpriced=1) if unit_price is None else Cost(unit_price * quantity)


def event_of(moment: datetime, ends: Sequence[datetime]) -> int | None:
    """The position of the event that work at `moment` is for: the first to end after it.

    `ends` are the ends of a car's events, in order. None when no event comes after.
    """
    position = bisect_right(ends, moment)
    return position if position < len(ends) else None

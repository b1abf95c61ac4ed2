"""The runs of a car by the day on which it was ready, in time and too late, for a picture."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

MOST_DAYS = 60
"""Days drawn; a car that is ready later counts with the last of them."""


@dataclass(frozen=True, slots=True)
class ReadyDay:
    """Runs in which the car was ready on a day: those in time, and those too late."""

    day: date
    in_time: int
    late: int


def ready_days(moments: Sequence[float], due: float, leaves: date, day_of: Callable[[int], date]) -> list[ReadyDay]:
    """One entry a day, without a gap, from the first run that is ready to the last or the day it leaves.

    `moments` and `due` are slots, those past the plan infinite and left out; `day_of` gives the day
    in which a slot ends. Empty when no run is ready within the plan.
    """
    finite = [int(moment) for moment in moments if moment != float("inf")]
    if not finite:
        return []
    first = min(day_of(finite[0]), leaves)
    most = first + timedelta(days=MOST_DAYS - 1)
    early = Counter(min(day_of(moment), most) for moment in finite if moment <= due)
    late = Counter(min(day_of(moment), most) for moment in finite if moment > due)
    last = min(max(day_of(finite[-1]), leaves), most)
    days = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    return [ReadyDay(day, early[day], late[day]) for day in days]

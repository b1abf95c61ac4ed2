"""Which ticks still hold, after work on the car and its running."""

from collections.abc import Collection, Iterable
from datetime import datetime
from typing import Protocol

from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.engine.scrutineering import touched_since
from builds.work.engine.car_work import RUNNING, CarWork

AHEAD = "It was ticked for a day that is still to come: take that back, and tick it again."


class Ticked(Protocol):
    """An item as it was left: its state and when, what it touches (systems, kinds of work)."""

    state: str
    at: datetime | None
    systems: Collection[str]
    kinds: Collection[str]


def void_of(item: Ticked, works: Iterable[CarWork], gates_at: datetime, now: datetime) -> str:
    """Why the item's tick holds no more; empty for what is not ticked.

    `gates_at` (aware) are those of the list's own event: what running there changes has a list of its own.
    One that was ticked later than `now` was ticked by a clock that was wrong: nobody knows what was done after it.
    """
    if item.state != CheckState.TICKED or item.at is None:
        return ""
    if item.at > now:
        return AHEAD
    before = [work for work in works if RUNNING not in work.kinds or (work.ended and work.ended < gates_at)]
    return touched_since(item.systems, item.at, before, item.kinds)

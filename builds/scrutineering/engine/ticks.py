"""Which ticks still hold, after work on the car and its running."""

from collections.abc import Collection, Iterable
from datetime import datetime, tzinfo
from typing import Protocol

from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.engine.scrutineering import CarWork, touched_since
from builds.work.engine.running import Run

# The kind of work that running is: what names it is looked at again after a run.
RAN = "first_run"


class Ticked(Protocol):
    """An item as it was left: its state and when, what it touches (systems, kinds of work)."""

    state: str
    at: datetime | None
    systems: Collection[str]
    kinds: Collection[str]


def ran_work(run: Run, zone: tzinfo) -> CarWork:
    """That a car ran, or may have run, by the clock of that zone."""
    since = run.since.astimezone(zone)
    day = f"{since.day} {since:%b}"
    words = f"It ran at {run.event} on {day}."
    if not run.told:
        words = f"{run.event} was over on {day}, and nobody has said whether the car ran."
    return CarWork(run.event, frozenset(), frozenset({RAN}), since, words=words, unsaid=not run.told)


def since(works: Iterable[CarWork], moment: datetime | None) -> list[CarWork]:
    """Those whose hands left later, or that are in hand."""
    return [work for work in works if work.ended is None or moment is None or work.ended > moment]


def void_of(item: Ticked, works: Iterable[CarWork], gates_at: datetime) -> str:
    """Why the item's tick holds no more; empty for what is not ticked.

    `gates_at` (aware) are those of the list's own event: what running there changes has a list of its own.
    """
    if item.state != CheckState.TICKED or item.at is None:
        return ""
    before = [work for work in works if RAN not in work.kinds or (work.ended and work.ended < gates_at)]
    return touched_since(item.systems, item.at, before, item.kinds)

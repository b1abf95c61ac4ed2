"""How long a job was worked on and how much of it is left, in minutes of hands-on time."""

from collections.abc import Collection, Iterable
from datetime import datetime

LEAST_LEFT = 15
"""An open job always has a little left: one slot of the plan."""


def around(likely: int, most: int) -> tuple[int, int, int]:
    """Low, likely and high minutes where only the likely is known; none of them is above `most`.

    Three quarters and half as much again: common practice, no source.
    """
    return likely * 3 // 4, likely, min(likely * 3 // 2, most)


def minutes_between(stretches: Iterable[tuple[datetime, datetime | None]], at: datetime) -> int:
    """Whole minutes in the stretches (aware, start and end; None runs until `at`)."""
    seconds = sum(max(0.0, ((until or at) - since).total_seconds()) for since, until in stretches)
    return int(seconds // 60)


def left_of(likely: int, spent: int, by_hand: int | None = None, running: int = 0) -> int:
    """Minutes left of a job that is not finished, 15 at least.

    The likely figure less what was `spent`; or what somebody put down `by_hand`, less the minutes
    of the stretch that is `running` now.
    """
    left = likely - spent if by_hand is None else by_hand - running
    return max(LEAST_LEFT, left)


def left_after(
    worked: Collection[tuple[datetime, datetime | None]], at: datetime, likely: int, by_hand: int | None
) -> int:
    """As `left_of`, of a job that was `worked` on in these stretches (as `minutes_between`)."""
    running = [stretch for stretch in worked if stretch[1] is None]
    return left_of(likely, minutes_between(worked, at), by_hand, minutes_between(running, at))

"""A moment of a run: what is known then."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builds.planner.crews import Crew

InHand = tuple[int, int, Crew]
"""A job in hand, when it would be over by what is known of it, and who is on it."""

Begun = tuple[int, tuple[int, ...]]
"""A job that begins now, and its people by number."""


@dataclass(slots=True)
class Moment:
    """What is known at slot `at`.

    `ends[j]` is when job j ended, PENDING when it has not; `idle` who is in and has nothing in hand, person k as
    bit k, where it is asked what begins; `ready` the turns of the jobs that wait for
    nothing but what has begun, rising, and `open` those of them that nothing keeps from beginning now but people
    and places, turn t as bit t; `kept` the holds that have begun and are not over. What waits for a job that ends
    past slot `beyond` is left out of the plan.
    """

    at: int
    ends: Sequence[int]
    hand: Sequence[InHand]
    idle: int
    ready: Sequence[int]
    open: int
    kept: Sequence[int]
    beyond: int

"""What trying changes finds: single attempts, remedies, and what a while of trying came to."""

from __future__ import annotations

from dataclasses import dataclass

from builds.planner.plan import Plan
from builds.planner.problem import Problem
from builds.remedies.engine.changes.change import Change


@dataclass(frozen=True, slots=True)
class Remedy:
    """Changes that get the car there, or come nearest to it: none means that a better order of the same work does.

    `ready` is the slot in which the car is ready, `spare` the slots between that and its due slot
    in which somebody is in; `in_time` the runs in which it is in time, where the odds judge. `misses`
    are the other cars (ids) that then miss their event as they did not before, `late` the wanted jobs
    (ids) that then are late, those put off left out.
    `problem` and `plan` are what was tried and found.
    """

    changes: tuple[Change, ...]
    ready: int
    spare: int
    in_time: int | None
    misses: tuple[str, ...]
    late: tuple[str, ...]
    problem: Problem
    plan: Plan

    @property
    def effort(self) -> float:
        """Hours of trouble."""
        return sum(change.effort for change in self.changes)

    @property
    def rank(self) -> tuple[float, ...]:
        """The order in which remedies are told: least effort, least harm, most to spare."""
        return (self.effort, len(self.misses), len(self.late), -self.spare)


@dataclass(frozen=True, slots=True)
class Attempt:
    """One thing tried. `gap` is how far off it is in slots, 0 when the car makes it; `done` of
    `of` things are then tried. `remedy` when it does it, unless that was known before.
    """

    changes: tuple[Change, ...]
    gap: int
    done: int
    of: int
    remedy: Remedy | None = None


@dataclass(frozen=True, slots=True)
class Trying:
    """What a while of trying came to: the `remedies` of this while, the least effort first, and
    the gaps of all attempts so far, with which the next while goes on. `together`: how many changes at
    most were tried at once; `nearest`: of what does not do, what comes nearest and is better than now,
    None as soon as anything does. `over` when all was tried.
    """

    remedies: tuple[Remedy, ...]
    gaps: tuple[int, ...]
    done: int
    of: int
    together: int
    nearest: Remedy | None
    over: bool

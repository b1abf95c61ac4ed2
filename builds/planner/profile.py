"""The serial scheme for problems of stations alone: no people, no hours, no holds."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from builds.planner.model import NEVER, Model
from builds.planner.place import Draft, Places


def suits(model: Model) -> bool:
    """Whether the problem has nothing but work, links, stations and earliest starts."""
    problem = model.problem
    return not (
        problem.holds
        or any(station.windows is not None or station.stands for station in problem.stations)
        or any(ready is not None for openings in model.before for _, _, ready in openings)
        or any(job.hands or job.windows is not None for job in problem.jobs)
        or any(job.started or job.clears or job.pinned is not None for job in problem.jobs)
        or not all(model.crews)
    )


class Profile:
    """Places lists of jobs on one profile: per slot, what is left of every station, in one integer.

    Each station has a field of bits with a guard bit above it; taking what a job uses from a slot
    that has too little sets a guard. For the goal "finish" a list is first placed
    backwards from its end and then forwards again (double justification: Valls, Ballestin &
    Quintanilla, EJOR 165 (2005) 375-386).
    """

    def __init__(self, model: Model) -> None:
        self.model = model
        self.both_ways = model.problem.goal == "finish"
        shift = full = guards = 0
        offset = {}
        for station in model.problem.stations:
            offset[station.id] = shift
            full |= station.capacity << shift
            shift += station.capacity.bit_length() + 1
            guards |= 1 << (shift - 1)
        self.guards, self.empty = guards, [full] * (model.horizon + max(model.work, default=0))
        self.uses = [
            sum(units << offset[name] for name, units in job.uses.items()) if job.work else 0
            for job in model.problem.jobs
        ]
        self.before = [[(j, wait) for j, wait, _ in openings] for openings in model.before]
        self.after = [[(j, wait) for j, wait, _ in openings] for openings in model.after]
        self.at_once = [0] * model.size

    def place(self, draft: Draft, *_: Any) -> Places:
        """The jobs placed one by one, each as early as what is left allows; for the latest end backwards before."""
        if not self.both_ways:
            return self._places(draft.order)
        mirrored = self._pass(draft.order[::-1], self.after, self.at_once)
        return self._places(sorted(self.model.topological, key=mirrored.__getitem__, reverse=True))

    def _places(self, order: Sequence[int]) -> Places:
        model = self.model
        end = self._pass(order, self.before, model.earliest)
        start = [stop - work for stop, work in zip(end, model.work, strict=True)]
        return Places(start, end, [()] * model.size, [], sorted(model.topological, key=end.__getitem__))

    def _pass(self, order: Sequence[int], links: list[list[tuple[int, int]]], earliest: list[int]) -> list[int]:
        """The end of each job, NEVER past the horizon.

        Each stretch is looked through from its end: a full slot there rules out every start before it.
        """
        free, guards, uses, works = self.empty[:], self.guards, self.uses, self.model.work
        horizon, end = self.model.horizon, [0] * self.model.size
        for j in order:
            at = earliest[j]
            for other, wait in links[j]:
                opens = end[other] + wait
                if opens > at:
                    at = opens
            work, used = works[j], uses[j]
            stop = at + work
            if used and stop <= horizon:
                slot = stop - 1
                while slot >= at:
                    if free[slot] - used & guards:
                        at, stop = stop, slot + work + 1
                        slot = stop
                    slot -= 1
            if stop > horizon:
                end[j] = NEVER
                continue
            end[j] = stop
            if used:
                for taken in range(stop - work, stop):
                    free[taken] -= used
        return end

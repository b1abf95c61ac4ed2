"""Stations held by cars that cannot be moved: what each hold wants, and the jobs it ties together."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from builds.planner.problem import Hold

if TYPE_CHECKING:
    from builds.planner.model import Model


class HoldSpan(NamedTuple):
    """The jobs that a hold ties together.

    `members`: every job that the end of the hold waits for, and the same again for each hold begun
    among them; `leading`: those of them that neither wait for the start or the end of a hold nor
    are one; `barred`: jobs that cannot be placed before the block is done; `held`: the holds begun
    in it.
    """

    members: frozenset[int]
    leading: frozenset[int]
    barred: frozenset[int]
    held: list[int]


class Holds:
    """The holds that keep somebody out, by number; `blocks` by the number of the job they start with.

    `starts` and `ends` are the first and last jobs; `berths`, `clear` and `shuts` those of the
    stock; `own[h]` the jobs of the car there. `never` holds jobs that would have a car elsewhere
    while it cannot be moved, whatever the plan.
    """

    def __init__(self, model: Model) -> None:
        problem, stock = model.problem, model.stock
        self.model = model
        self.stands = {station.id for station in problem.stations if station.stands}
        live = [h for h in range(len(problem.holds)) if stock.berths[h] or stock.shuts[h]]
        holds = [problem.holds[h] for h in live]
        self.starts = [model.number[hold.start] for hold in holds]
        self.ends = [model.number[hold.until] for hold in holds]
        self.berths = [stock.berths[h] for h in live]
        self.clear = [stock.clear[h] for h in live]
        self.shuts = [stock.shuts[h] for h in live]
        self.own = [self._own(hold) for hold in holds]
        barred = [self._barred(hold) for hold in holds]
        self.blocks = {start: self._block(start, barred) for start in self.starts}
        self.never = {j for hold in holds for j in self._never(hold)}

    def _own(self, hold: Hold) -> list[tuple[int, int]]:
        """The jobs of the car at the station it is held in, with the units they use."""
        mine = [(j, job) for j, job in enumerate(self.model.problem.jobs) if job.vehicle == hold.vehicle]
        return [(j, job.uses[hold.station]) for j, job in mine if job.work and job.uses.get(hold.station)]

    def _elsewhere(self, hold: Hold) -> Iterable[int]:
        """The jobs that have the car stand in another place than the one it is held in."""
        if hold.station in self.stands:
            others = self.stands - {hold.station}
            for j, job in enumerate(self.model.problem.jobs):
                if job.vehicle == hold.vehicle and job.work and not others.isdisjoint(job.uses):
                    yield j

    def _barred(self, hold: Hold) -> set[int]:
        """Jobs that could be in the way of the hold: other cars' at the station, the car's elsewhere."""
        jobs = enumerate(self.model.problem.jobs)
        others = {j for j, job in jobs if job.vehicle != hold.vehicle and job.uses.get(hold.station)}
        return others.union(self._elsewhere(hold))

    def _never(self, hold: Hold) -> set[int]:
        """Jobs elsewhere that come after the start of the hold and before its end by their links.

        What has begun has everything else after it.
        """
        start, until = self.model.number[hold.start], self.model.number[hold.until]
        within = {until, *self.model.ancestors(until)}
        if start not in self.model.facts:
            within = {j for j in within if j == start or start in self.model.ancestors(j)}
        return within.intersection(self._elsewhere(hold))

    def _block(self, start: int, barred: list[set[int]]) -> HoldSpan:
        """What is placed in one go with a job that a hold starts with."""
        members, ancestors = {start}, self.model.ancestors
        size = 0
        while len(members) > size:
            size = len(members)
            members |= {self.ends[h] for h, begin in enumerate(self.starts) if begin in members}
            members = members.union(*(ancestors(j) for j in members))
        held = [h for h, begin in enumerate(self.starts) if begin in members]
        tied = {start, *self.ends}
        return HoldSpan(
            frozenset(members),
            frozenset(j for j in members - tied if tied.isdisjoint(ancestors(j))),
            frozenset(set(self.starts).union(*(barred[h] for h in held))),
            held,
        )

"""The places of a station that cars are held in, in the order of a plan: who takes and gives back which."""

from __future__ import annotations

from bisect import insort
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from builds.planner.problem import Hold, Station

if TYPE_CHECKING:
    from builds.odds.turns import Turns

Place = tuple[float, int]
"""When a place is free, and the job that had it last."""

FREE = (0.0, -1)
"""A place of a station that nobody has had: free from 0, and no job to wait for."""


class LineMove(NamedTuple):
    """As many `places` that go from one line to another before a job begins.

    Those that the jobs `of` have go first, then the ones that are free first; they are free no
    sooner than the end of each of the jobs `after`.
    """

    source: int
    target: int
    places: int
    of: tuple[int, ...] = ()
    after: tuple[int, ...] = ()

    def make(self, lines: list[list[Place]], ends: Sequence[float]) -> Place:
        """Move them; the last of those that no job of `of` has is what whoever takes them waits for."""
        line = lines[self.source]
        taken = [place for place in line if place[1] in self.of][: self.places] if self.of else []
        for place in taken:
            line.remove(place)
        others = self.places - len(taken)
        taken += line[:others]
        waited = line[others - 1] if others else FREE
        del line[:others]
        over = [(ends[job], job) for job in self.after]
        for place in taken:
            insort(lines[self.target], max(place, *over) if over else place)
        return waited


class Lines:
    """One line of places for everybody, and one for each car that is held here while it is.

    A held car has as many in its line as its hold keeps, more while its own jobs use more; its jobs
    take the free ones there first. `moves[j]` and `places[j]` (line, units) are for the job with
    place j in the order of the plan, `claims[j]` a move that it waits for; the lines are numbered from
    `first`, all places at first in that one; `count` is how many lines there are.
    """

    def __init__(self, turns: Turns, station: Station, holds: list[Hold], horizon: int) -> None:
        rows, number, first = turns.rows, turns.number, len(turns.capacities)
        self.rows, self.number, self.first, self.horizon = rows, number, first, horizon
        self.moves: dict[int, list[LineMove]] = {}
        self.claims: dict[int, LineMove] = {}
        self.places: dict[int, tuple[int, int]] = {}
        self.line = {car: first + k for k, car in enumerate(dict.fromkeys(hold.vehicle for hold in holds), 1)}
        self.count = 1 + len(self.line)
        self.sizes = dict.fromkeys(self.line, 0)
        self.open: list[Hold] = []
        self.using: list[tuple[int, int]] = []
        starts: dict[int, list[Hold]] = {}
        for hold in holds:
            starts.setdefault(number[hold.start], []).append(hold)
        for j, (job, row) in enumerate(rows):
            units = job.uses.get(station.id, 0) if job.work else 0
            if units or j in starts:
                self.moves[j] = self._given_back(row.start, j)
                self._take(j, job.vehicle, units, starts.get(j, []))

    def _given_back(self, at: int, j: int) -> list[LineMove]:
        """What held cars need no longer at a slot of the plan."""
        over = [hold for hold in self.open if self._end(hold) <= at]
        self.open = [hold for hold in self.open if self._end(hold) > at]
        self.using = [(k, units) for k, units in self.using if self.rows[k][1].end > at]
        moves = []
        for car, size in self.sizes.items():
            kept = self._kept(car)
            excess = size - max(kept, self._own(car)) if kept else size
            if excess:
                ended = (self.number[hold.until] for hold in over if hold.vehicle == car)
                after = tuple(until for until in ended if until < j)
                moves.append(LineMove(self.line[car], self.first, excess, after=after))
                self.sizes[car] -= excess
        return moves

    def _take(self, j: int, car: str | None, units: int, begun: list[Hold]) -> None:
        held = bool(car is not None and self._kept(car))
        self.open += [hold for hold in begun if self._end(hold) > self.rows[j][1].start]
        line = self.first
        if car is not None and (kept := self._kept(car)):
            line = self.line[car]
            there = () if held else tuple(k for k, _ in self.using if self.rows[k][0].vehicle == car)
            more = max(self._own(car) + units, kept) - self.sizes[car]
            if more > 0:
                self.claims[j] = LineMove(self.first, line, more, of=there)
                self.sizes[car] += more
        if units:
            self.places[j] = (line, units)
            self.using.append((j, units))

    def _end(self, hold: Hold) -> int:
        until = self.number.get(hold.until)
        return self.horizon if until is None else self.rows[until][1].end

    def _kept(self, car: str) -> int:
        return max((hold.units for hold in self.open if hold.vehicle == car), default=0)

    def _own(self, car: str) -> int:
        return sum(units for k, units in self.using if self.rows[k][0].vehicle == car)

"""Where the cars are at a moment of a run: who is on which station, and what is held there."""

from __future__ import annotations

from collections.abc import Iterator

from builds.planner.model import Model
from builds.planner.problem import Problem


class Yard:
    """What is in use; jobs by number, cars and stations by id."""

    def __init__(self, problem: Problem, model: Model) -> None:
        self.jobs = problem.jobs
        self.capacity = {station.id: station.capacity for station in problem.stations}
        self.stands = {station.id for station in problem.stations if station.stands}
        self.uses = [
            {name: units for name, units in job.uses.items() if units} if job.work else {} for job in problem.jobs
        ]
        holds = [(hold, model.number[hold.start], model.number[hold.until]) for hold in problem.holds]
        self.begins = {j: [hold for hold, first, _ in holds if first == j] for j in range(len(problem.jobs))}
        self.closes = {j: [hold for hold, _, last in holds if last == j] for j in range(len(problem.jobs))}
        self.clear()

    def clear(self) -> None:
        """A new run: every car is out of the way."""
        self.working: dict[str, list[int]] = {name: [] for name in self.capacity}
        self.held: dict[str, list[tuple[str, int]]] = {name: [] for name in self.capacity}
        self.last_at: dict[str, int] = {}

    def room(self, j: int) -> bool:
        """Whether the job finds its stations free, and its car where it may be."""
        car, uses, begins = self.jobs[j].vehicle, self.uses[j], self.begins[j]
        if not uses and not begins:
            return True
        names = {*uses, *(hold.station for hold in begins)}
        if any(self._load(name, j) > self.capacity[name] for name in names):
            return False
        mine = names & self.stands
        return not mine or len(mine.union(self._places(car))) == 1

    def _load(self, name: str, j: int) -> int:
        own: dict[str | None, int] = {}
        kept: dict[str | None, int] = {}
        for other in (*self.working[name], j):
            car = self.jobs[other].vehicle
            own[car] = own.get(car, 0) + self.uses[other].get(name, 0)
        holds = [(hold.vehicle, hold.units) for hold in self.begins[j] if hold.station == name]
        for holder, units in (*self.held[name], *holds):
            kept[holder] = max(kept.get(holder, 0), units)
        return sum(max(own.get(car, 0), kept.get(car, 0)) for car in own.keys() | kept.keys())

    def _places(self, car: str | None) -> Iterator[str]:
        """The places in which a car stands now."""
        for name in self.stands:
            if any(self.jobs[j].vehicle == car for j in self.working[name]) or any(
                holder == car for holder, _ in self.held[name]
            ):
                yield name

    def begin(self, j: int) -> None:
        """The job takes its places, and what its holds keep."""
        for name in self.uses[j]:
            self.working[name].append(j)
        for hold in self.begins[j]:
            self.held[hold.station].append((hold.vehicle, hold.units))

    def end(self, j: int) -> None:
        """The job gives back its places, and those of the holds that end with it."""
        for name in self.uses[j]:
            self.working[name].remove(j)
            self.last_at[name] = j
        for hold in self.closes[j]:
            if (hold.vehicle, hold.units) in self.held[hold.station]:
                self.held[hold.station].remove((hold.vehicle, hold.units))
            self.last_at[hold.station] = j

    def left_by(self, j: int) -> Iterator[int]:
        """The jobs that last left the stations that job j uses."""
        for name in self.uses[j]:
            if name in self.last_at:
                yield self.last_at[name]

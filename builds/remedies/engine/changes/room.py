"""Room for one more on a station: two bays instead of one."""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import dataclass, replace

from builds.planner.plan import Plan
from builds.planner.problem import Hold, Problem, Station
from builds.remedies.engine.changes.change import Change
from builds.remedies.engine.standing import chain_to_last

CLEARING_OUT = 16.0
"""Hours of trouble for room for one more: a weekend. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Room(Change):
    """One more unit of a station (an id)."""

    station: str
    kind: str = "room"

    @property
    def effort(self) -> float:
        return CLEARING_OUT

    def apply(self, problem: Problem) -> Problem:
        stations = {station.id: station for station in problem.stations}
        station = stations[self.station]
        stations[station.id] = replace(station, capacity=station.capacity + 1)
        return replace(problem, stations=tuple(stations.values()))


def more_room(problem: Problem, plan: Plan, vehicle: str) -> list[Room]:
    """On each station that the work of the car (an id), or what it waits for, shares with others or lacks."""
    work = {job.id for job in problem.must_do(vehicle) if job.due is not None}
    work |= chain_to_last(problem, plan, vehicle) if work else set()
    held = [hold for hold in problem.holds if hold.vehicle != vehicle]
    return [Room(station.id) for station in problem.stations if _is_short(problem, station, work, held)]


def _is_short(problem: Problem, station: Station, work: Container[str], held: Iterable[Hold]) -> bool:
    """Whether any of the work (ids) is done there, and jobs and other cars' holds ask for more than it has."""
    users = [job for job in problem.jobs if job.uses.get(station.id)]
    asked = sum(job.uses[station.id] for job in users) + sum(hold.units for hold in held if hold.station == station.id)
    return any(job.id in work for job in users) and asked > station.capacity

"""Room for one more on a station: two bays instead of one."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builds.planner.problem import Problem, Station
from builds.remedies.engine.changes.change import Change

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


def more_room(problem: Problem, vehicle: str) -> list[Room]:
    """On each station that the due work of the car (an id) shares with other work, or lacks."""
    return [Room(station.id) for station in problem.stations if _is_short(problem, station, vehicle)]


def _is_short(problem: Problem, station: Station, vehicle: str) -> bool:
    users = [job for job in problem.jobs if job.uses.get(station.id)]
    asks = any(job.vehicle == vehicle and job.rank != "wanted" and job.due is not None for job in users)
    return asks and sum(job.uses[station.id] for job in users) > station.capacity

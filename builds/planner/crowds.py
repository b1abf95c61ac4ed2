"""Stations in which more cars stand stripped than there is room for, from before the plan."""

from __future__ import annotations

from typing import NamedTuple

from builds.planner.problem import Problem


class Crowd(NamedTuple):
    """A station with room for `room`, and the cars that have begun to be held there."""

    station: str
    room: int
    cars: tuple[str, ...]


def crowds(problem: Problem) -> tuple[Crowd, ...]:
    """Each station whose facts want more units of it than it has, in the order of the problem."""
    facts = problem.facts
    crowded = []
    for station in problem.stations:
        kept: dict[str, int] = {}
        for hold in problem.holds:
            if hold.station == station.id and hold.start in facts:
                kept[hold.vehicle] = max(kept.get(hold.vehicle, 0), hold.units)
        if sum(kept.values()) > station.capacity:
            crowded.append(Crowd(station.id, station.capacity, tuple(kept)))
    return tuple(crowded)

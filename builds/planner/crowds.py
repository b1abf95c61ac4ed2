"""Cars that stand stripped from before the plan: more than there is room for, and whose work they bar."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from builds.planner.problem import Hold, Problem


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
        kept = _kept(hold for hold in problem.holds if hold.station == station.id and hold.start in facts)
        if sum(kept.values()) > station.capacity:
            crowded.append(Crowd(station.id, station.capacity, tuple(kept)))
    return tuple(crowded)


def barred_by_facts(problem: Problem) -> dict[str, set[str]]:
    """By the last job of each hold that has begun, the jobs that have no room until then: other cars' at the
    station, and those that would have its own car stand in another.
    """
    facts, stands = problem.facts, {station.id for station in problem.stations if station.stands}
    barred: dict[str, set[str]] = {}
    for station in problem.stations:
        begun = [hold for hold in problem.holds if hold.station == station.id and hold.start in facts]
        kept = _kept(begun)
        room = max(0, station.capacity - sum(kept.values()))
        elsewhere = stands - {station.id} if station.id in stands else set()
        for hold in begun:
            barred.setdefault(hold.until, set()).update(
                job.id
                for job in problem.jobs
                if (job.uses.get(station.id, 0) > room and job.vehicle not in kept)
                or (job.vehicle == hold.vehicle and not elsewhere.isdisjoint(job.uses))
            )
    return {until: jobs - {until} for until, jobs in barred.items()}


def _kept(holds: Iterable[Hold]) -> dict[str, int]:
    """By car, the most units that one of its holds keeps."""
    kept: dict[str, int] = {}
    for hold in holds:
        kept[hold.vehicle] = max(kept.get(hold.vehicle, 0), hold.units)
    return kept

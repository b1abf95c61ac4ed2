"""The judge of stations: how much of each is in use, and whether each car is in one place."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container, Iterable, Iterator, Mapping
from itertools import groupby
from operator import itemgetter
from typing import NamedTuple

from builds.planner.plan import Placed
from builds.planner.problem import Job, Problem, Station


class Stay(NamedTuple):
    """A car at a station in the slots [start, end): by its job `first`, or held until `last`."""

    start: int
    end: int
    car: str | None
    station: str
    units: int
    first: Job
    last: Job | None = None

    def why(self) -> str:
        """What keeps it there, in words."""
        return f"held from {self.first.label} until {self.last.label}" if self.last else f"for {self.first.label}"


def stays(problem: Problem, jobs: Mapping[str, Job], placed: Mapping[str, Placed]) -> list[Stay]:
    """Where each car is when, by start; a hold whose last job has no place runs to the horizon."""
    stands = {station.id for station in problem.stations if station.stands}
    there = [
        Stay(place.start, place.end + (job.clears if name not in stands else 0), job.vehicle, name, units, job)
        for place in placed.values()
        for job in (jobs[place.id],)
        for name, units in job.uses.items()
    ]
    for hold in problem.holds:
        first, last = placed.get(hold.start), placed.get(hold.until)
        if first:
            end = last.end if last else problem.slots
            ties = jobs[hold.start], jobs[hold.until]
            there.append(Stay(first.start, end, hold.vehicle, hold.station, hold.units, *ties))
    return sorted([stay for stay in there if stay.start < stay.end], key=itemgetter(0, 1))


def overfull(station: Station, there: Iterable[Stay], facts: Container[str] = ()) -> Iterator[str]:
    """The first slot in which more of the station is in use than it has.

    It has room for all whose hold began before the plan (`facts`), be they more than it is made for.
    """
    present: list[Stay] = []
    mine = [stay for stay in there if stay.station == station.id]
    for slot, begun in groupby(mine, itemgetter(0)):
        present = [stay for stay in present if stay.end > slot] + list(begun)
        if sum([stay.units for stay in present]) <= station.capacity:
            continue
        own, kept = load(present)
        taken = sum(max(own[car], kept[car]) for car in own.keys() | kept.keys())
        firm = load(stay for stay in present if _begun(stay, facts))[1]
        if taken > max(station.capacity, sum(firm.values())):
            said = f"{station.id} has {taken} of {station.capacity} in use at slot {slot}"
            still = [f"{car} keeps {kept[car]}" for car in sorted(kept, key=str) if kept[car] > own[car]]
            yield f"{said}: {' and '.join(still)} while it cannot be moved." if still else f"{said}."
            return


def load(present: Iterable[Stay]) -> tuple[dict[str | None, int], dict[str | None, int]]:
    """By car, what its jobs use of a station, and the most that a hold keeps for it."""
    own: dict[str | None, int] = defaultdict(int)
    kept: dict[str | None, int] = defaultdict(int)
    for stay in present:
        if stay.last is None:
            own[stay.car] += stay.units
        else:
            kept[stay.car] = max(kept[stay.car], stay.units)
    return own, kept


def _begun(stay: Stay, facts: Container[str]) -> bool:
    return stay.last is not None and stay.first.id in facts


def torn(problem: Problem, there: Iterable[Stay]) -> Iterator[str]:
    """Cars that would stand in two stations at once; one that has begun to is as it is."""
    facts = problem.facts
    stands = {station.id for station in problem.stations if station.stands}
    by_car: dict[str | None, list[Stay]] = defaultdict(list)
    for stay in there:
        if stay.station in stands:
            by_car[stay.car].append(stay)
    for car, mine in by_car.items():
        present: list[Stay] = []
        for other in mine:
            present = [one for one in present if one.end > other.start]
            for one in present:
                if one.station != other.station and not (_begun(one, facts) and _begun(other, facts)):
                    yield (
                        f"{car} is in {one.station} ({one.why()}) and in {other.station} ({other.why()}) "
                        f"at once, from slot {other.start}."
                    )
            present.append(other)

"""What jobs take: lanes of free slots, of people, of places in stations and of where a car may be."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from builds.planner.problem import Problem, Station


class Berth(NamedTuple):
    """`units` of a station for a job or a hold of one car.

    `first` to `last` are the lanes of the station (k-th: more than k units are free), `spare` to
    `end` those of the car (k-th: more than k units are kept for it that no job of its own uses).
    """

    units: int
    first: int
    last: int
    spare: int
    end: int


class Stock:
    """The lanes and who takes from them; every list is indexed by the number of a job or of a hold.

    `blank` is the state of the lanes with nothing placed. `room[j]`: lanes that must be free for the
    job whoever works on it; `marks[j]`: lanes it takes slots from; `books[j]`: (first lane, units,
    one past the last) of stations where its car is never held; `kept[j]`: its berths where it is;
    `clears[j]`: those books that stay taken after its end; `lowers[j]` and `fills[j]` say books and marks together as
    they are taken: (lane, the higher one of which it is left what is free there), the lowest first, and lanes that are
    left nothing; `never`: jobs that no plan has a place for at their stations. By hold: `berths` (None: it keeps
    nobody out), `clear` lanes that must be free for it and `shuts` lanes it takes slots from.
    """

    def __init__(self, problem: Problem, everything: int) -> None:
        self.problem, self.everything = problem, everything
        self.blank = [everything] * len(problem.people)
        jobs = problem.jobs
        self.room: list[list[int]] = [[] for _ in jobs]
        self.marks: list[list[int]] = [[] for _ in jobs]
        self.books: list[list[tuple[int, int, int]]] = [[] for _ in jobs]
        self.kept: list[list[Berth]] = [[] for _ in jobs]
        self.clears: list[list[tuple[int, int, int]]] = [[] for _ in jobs]
        self.never: set[int] = set()
        self.berths: list[Berth | None] = [None] * len(problem.holds)
        self.clear: list[list[int]] = [[] for _ in problem.holds]
        self.shuts: list[list[int]] = [[] for _ in problem.holds]
        self._stations()
        self._standing()
        self.lowers = [[pair for book in books for pair in _stepped(book)] for books in self.books]
        self.fills = [
            [*marks, *(lane for book in books for lane in _last(book))]
            for marks, books in zip(self.marks, self.books, strict=True)
        ]

    def _lanes(self, count: int, bits: int) -> int:
        """As many more lanes, and the number of the first."""
        self.blank += [bits] * count
        return len(self.blank) - count

    def _stations(self) -> None:
        """Rows for each station that can ever be asked for more than it has."""
        asked: dict[str, int] = defaultdict(int)
        users: dict[str, list[tuple[int, int]]] = defaultdict(list)
        for j, job in enumerate(self.problem.jobs):
            for name, units in job.uses.items():
                if units:
                    asked[name] += units
                    users[name].append((j, units))
        for hold in self.problem.holds:
            asked[hold.station] += hold.units
        for station in self.problem.stations:
            if asked[station.id] > station.capacity:
                self._contended(station, users[station.id])

    def _contended(self, station: Station, users: list[tuple[int, int]]) -> None:
        name, jobs, first = station.id, self.problem.jobs, self._lanes(station.capacity, self.everything)
        last = first + station.capacity
        most: dict[str | None, int] = {}
        held = [hold for hold in self.problem.holds if hold.station == name and hold.units]
        cars = {jobs[j].vehicle for j, _ in users}.union(hold.vehicle for hold in held)
        for hold in held:
            if len(cars) > 1 or hold.units > station.capacity:
                most[hold.vehicle] = max(hold.units, most.get(hold.vehicle, 0))
        spare = {car: (self._lanes(units, 0), len(self.blank)) for car, units in most.items()}
        for h, hold in enumerate(self.problem.holds):
            if hold.station == name and hold.units and hold.vehicle in spare:
                self.berths[h] = Berth(hold.units, first, last, *spare[hold.vehicle])
        for j, units in users:
            if not jobs[j].work:
                continue
            if units > station.capacity:
                self.never.add(j)
            elif jobs[j].vehicle in spare:
                self.kept[j].append(Berth(units, first, last, *spare[jobs[j].vehicle]))
            else:
                self.room[j].append(first + units - 1)
                self.books[j].append((first, units, last))
                if jobs[j].clears and not station.stands:
                    self.clears[j].append((first, units, last))

    def _standing(self) -> None:
        """A lane for each car and each of the places it stands in: in no other of them."""
        stands = {station.id for station in self.problem.stations if station.stands}
        at = [sorted(stands.intersection(job.uses)) if job.work else [] for job in self.problem.jobs]
        places: dict[str | None, set[str]] = defaultdict(set)
        for job, names in zip(self.problem.jobs, at, strict=True):
            places[job.vehicle].update(names)
        for hold in self.problem.holds:
            places[hold.vehicle].update({hold.station} & stands)
        lane = {
            car: {name: self._lanes(1, self.everything) for name in sorted(names)}
            for car, names in places.items()
            if len(names) > 1
        }
        for j, (job, names) in enumerate(zip(self.problem.jobs, at, strict=True)):
            if len(names) > 1:
                self.never.add(j)
            elif names and job.vehicle in lane:
                self.room[j].append(lane[job.vehicle][names[0]])
                self.marks[j] += _others(lane[job.vehicle], names[0])
        for h, hold in enumerate(self.problem.holds):
            if hold.station in lane.get(hold.vehicle, ()):
                self.clear[h].append(lane[hold.vehicle][hold.station])
                self.shuts[h] += _others(lane[hold.vehicle], hold.station)


def _stepped(book: tuple[int, int, int]) -> Iterator[tuple[int, int]]:
    """The lanes of a station that are as free as a higher one once so many units of it are taken, and that one."""
    first, units, last = book
    return ((lane, lane + units) for lane in range(first, last - units))


def _last(book: tuple[int, int, int]) -> range:
    """The lanes of a station in which nothing is free once so many units of it are taken."""
    first, units, last = book
    return range(max(first, last - units), last)


def _others(lanes: dict[str, int], name: str) -> list[int]:
    return [lane for other, lane in lanes.items() if other != name]


def reach(free: list[int], berth: Berth) -> int:
    """The slots in which the berth is free, places that are kept for its car counted in."""
    units, first, _, spare, end = berth
    slots = free[first + units - 1]
    for kept in range(1, min(units, end - spare) + 1):
        own = free[spare + kept - 1]
        slots |= own & free[first + units - kept - 1] if kept < units else own
    return slots


def take(free: list[int], berth: Berth, span: int) -> None:
    """Book the berth for a job in these slots, first from what is kept for its car."""
    units, first, last, spare, end = berth
    for _ in range(units):
        own = span & free[spare]
        if own:
            lower(free, spare, end, own)
        if own != span:
            lower(free, first, last, span ^ own)


def lower(free: list[int], first: int, last: int, slots: int) -> None:
    """One unit less in these slots, of what the lanes from `first` to `last` count."""
    for lane in range(first, last - 1):
        free[lane] ^= (free[lane] ^ free[lane + 1]) & slots
    free[last - 1] ^= free[last - 1] & slots


def rise(level: list[int], first: int, last: int, slots: int) -> None:
    """One unit more in these slots, up to as many as there are lanes."""
    for lane in range(last - 1, first, -1):
        level[lane] |= level[lane - 1] & slots
    level[first] |= slots

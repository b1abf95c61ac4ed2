"""What was in the way of a job: its people on other work, a full station, its car in another place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from builds.planner.check_stations import Stay, load, stays
from builds.planner.plan import Placed, Plan
from builds.planner.problem import Job, Person, Problem
from builds.planner.words import Names, When


@dataclass(frozen=True, slots=True)
class StartReason:
    """One thing a job waits for.

    `kind`: "link", "person", "station", "hold" or "elsewhere" (refs end with the id of the job
    waited for); "away" (refs: people), "closed" (station), "windows", "earliest", "pinned", "now",
    "order", or "unplaced" for a job that has no place. `behind` is the job (id) that let an earlier
    session pass, where it waits for the next.
    """

    kind: str
    refs: tuple[str, ...]
    sentence: str
    behind: str | None = None

    @property
    def job(self) -> str | None:
        """The id of the job waited for, if it is a job."""
        return self.refs[-1] if self.kind in ("link", "person", "station", "hold", "elsewhere") else self.behind


class Hindrance(NamedTuple):
    """Something that ended at slot `end`; `telling` ranks those of one moment, the most telling last."""

    over: bool
    end: int
    telling: int
    kind: str
    refs: tuple[str, ...]
    said: str


class Hindrances:
    """The plan laid out by people and by cars at stations, to be asked what was in the way."""

    def __init__(self, problem: Problem, plan: Plan, names: Names, when: When) -> None:
        self.problem, self.names, self.when = problem, names, when
        self.jobs = {job.id: job for job in problem.jobs}
        self.capacity = {station.id: station.capacity for station in problem.stations}
        self.stands = {station.id for station in problem.stations if station.stands}
        self.people = {place.id: frozenset(place.people) for place in plan.placed}
        self.on: dict[str, list[Placed]] = {}
        for place in plan.placed:
            for name in place.people:
                self.on.setdefault(name, []).append(place)
        self.there = stays(problem, self.jobs, {place.id: place for place in plan.placed})

    def latest(self, job: Job, place: Placed, began: int, until: int) -> StartReason | None:
        """What last kept the job out of the slots [began, until), before it starts at `place.start`."""
        people = self._people(place, began, until)
        there = [stay for stay in self.there if stay.start < until and began < stay.end]
        others = [stay for stay in there if stay.first is not job or stay.last is not None]
        hindrances = [*people, *self._full(job, place, began, others), *self._elsewhere(job, place, others)]
        if not hindrances:
            return None
        last = max(hindrances)
        return StartReason(last.kind, last.refs, f"{last.said} until {self.when(last.end)}, so {job.label} waits.")

    def _people(self, place: Placed, began: int, until: int) -> Iterator[Hindrance]:
        for name in place.people:
            for other in self.on[name]:
                if other is not place and other.start < other.end and other.start < until and began < other.end:
                    yield Hindrance(
                        other.end <= place.start, other.end, 1, "person", (name, other.id), self._busy(name, other)
                    )

    def _busy(self, name: str, other: Placed) -> str:
        """Nobody is on what is only planned."""
        who, job = self.names.person[name], self.names.job(other.id)
        if self.jobs[other.id].started:
            return f"{who} is on {job}"
        return f"{who} does {job} first, planned from {self.when(other.start)}"

    def _full(self, job: Job, place: Placed, began: int, others: list[Stay]) -> Iterator[Hindrance]:
        """Other jobs and held cars at a station of the job, where they leave too little of it."""
        for name, units in job.uses.items():
            mine = [stay for stay in others if stay.station == name and not self._by_its_people(stay, job, place)]
            for moment in {began, *(stay.start for stay in mine if stay.start > began)}:
                present = [stay for stay in mine if stay.start <= moment < stay.end]
                own, kept = load(present)
                own[job.vehicle] += units
                if sum(max(own[car], kept[car]) for car in own.keys() | kept.keys()) > self.capacity[name]:
                    yield from (self._taken(stay, place) for stay in present if _counts(stay, job))

    def _by_its_people(self, stay: Stay, job: Job, place: Placed) -> bool:
        """Work of the job's own people, with nobody else free for it, at a station that it does not fill."""
        fills = stay.last is not None or stay.units >= self.capacity[stay.station]
        theirs = not self.people[stay.first.id].isdisjoint(place.people)
        return theirs and not fills and not any(self._is_free(one, stay) for one in self._others(job, place))

    def _others(self, job: Job, place: Placed) -> Iterator[Person]:
        """Who could do it besides those who do."""
        for one in self.problem.hands_for(job) if job.crew is None else ():
            if one.id not in place.people and (not job.skill or job.skill in one.skills):
                yield one

    def _is_free(self, one: Person, stay: Stay) -> bool:
        """In when the stay begins, with nothing to do."""
        is_in = one.windows is None or any(start <= stay.start < end for start, end in one.windows)
        return is_in and not any(other.start <= stay.start < other.end for other in self.on.get(one.id, ()))

    def _taken(self, stay: Stay, place: Placed) -> Hindrance:
        station, over = self.names.station[stay.station], stay.end <= place.start
        if stay.last is None:
            by = f"by {self.names.car(stay.car)} " if stay.car else ""
            said = f"{station} is taken {by}for {stay.first.label}"
            return Hindrance(over, stay.end, 3, "station", (stay.station, stay.first.id), said)
        return Hindrance(over, stay.end, 2, "hold", (stay.car or "", stay.station, stay.last.id), self._stripped(stay))

    def _stripped(self, stay: Stay) -> str:
        return f"{self.names.car(stay.car)} stands stripped in {self.names.station[stay.station]} and cannot be moved"

    def _elsewhere(self, job: Job, place: Placed, others: list[Stay]) -> Iterator[Hindrance]:
        """The car of the job in another place than the one it would stand in for it."""
        places = self.stands.intersection(job.uses)
        for stay in others:
            if places and stay.car == job.vehicle and stay.station in self.stands - places:
                car, station = self.names.car(stay.car), self.names.station[stay.station]
                over, refs = stay.end <= place.start, (stay.car or "", stay.station, (stay.last or stay.first).id)
                if stay.last is None:
                    said = f"{car} stands at {station} for {stay.first.label}"
                    yield Hindrance(over, stay.end, 4, "elsewhere", refs, said)
                else:
                    yield Hindrance(over, stay.end, 5, "hold", refs, self._stripped(stay))


def _counts(stay: Stay, job: Job) -> bool:
    """Whether what is there takes room from the job: not the place that is kept for its own car."""
    return stay.units > 0 and (stay.last is None or stay.car != job.vehicle)

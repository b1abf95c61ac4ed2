"""Changes that might get a car there: each makes another problem, and says what it asks of whom.

Effort is counted in hours of trouble, so that changes can be put in order. Common practice, no
source: putting off a wanted job costs half an hour of explaining, a heater two hours of fetching
and watching it, an hour that somebody comes as well is that hour, an hour of somebody new half as
much again and two for asking, each day that a part comes sooner three hours of telephone and
driving, room for one more car a weekend of clearing out, a car that stays at home a day and a half
for each point of its weight.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Protocol

from builds.planner.axis import clip, joined
from builds.planner.plan import Plan
from builds.planner.problem import Job, Link, Person, Problem
from builds.planner.words import Names, When, duration, listed_in_words

DEFER, HEAT, PART_A_DAY, ASK, STRANGER, ROOM, STAY = 0.5, 2.0, 3.0, 2.0, 1.5, 16.0, 12.0


class Change(Protocol):
    """`kind` groups changes that are alike; `effort` in hours of trouble."""

    @property
    def kind(self) -> str: ...

    @property
    def effort(self) -> float: ...

    def apply(self, problem: Problem) -> Problem:
        """The problem with the change made. KeyError for ids it does not know."""

    def words(self, names: Names, when: When) -> str:
        """What is to be done, as one sentence."""

    def smaller(self, plan: Plan) -> Iterator[Change]:
        """Changes of the same kind that ask for less, worth a try when this one does it."""


@dataclass(frozen=True, slots=True)
class Defer:
    """Wanted jobs that wait until slot `until`, when the car that is late has left."""

    jobs: tuple[str, ...]
    until: int
    kind: str = "defer"

    @property
    def effort(self) -> float:
        return DEFER * len(self.jobs)

    def apply(self, problem: Problem) -> Problem:
        """ValueError for a job that is not wanted: safety and needed work is never put off."""
        jobs = {job.id: job for job in problem.jobs}
        for name in self.jobs:
            if jobs[name].rank != "wanted":
                raise ValueError(f"{jobs[name].label} is {jobs[name].rank} work: it is not put off.")
            earliest = max(jobs[name].earliest, self.until)
            jobs[name] = replace(jobs[name], earliest=earliest, waits_for=None)
        return replace(problem, jobs=tuple(jobs.values()))

    def words(self, names: Names, when: When) -> str:
        titles = listed_in_words([names.job[name] for name in self.jobs])
        verb = "wait" if len(self.jobs) > 1 else "waits"
        return f"{titles} {verb} until {when(self.until)}."

    def smaller(self, plan: Plan) -> Iterator[Change]:
        for name in reversed(self.jobs if len(self.jobs) > 1 else ()):
            yield replace(self, jobs=tuple(other for other in self.jobs if other != name))


@dataclass(frozen=True, slots=True)
class ExtraSession:
    """Somebody is in from slot `begin` to slot `end` as well; `hours` it is long."""

    person: str
    begin: int
    end: int
    hours: float
    kind: str = "session"

    @property
    def effort(self) -> float:
        return self.hours

    def apply(self, problem: Problem) -> Problem:
        people = {row.id: row for row in problem.people}
        row = people[self.person]
        windows = joined((clip(row.windows, problem.slots), ((self.begin, self.end),)))
        people[row.id] = replace(row, windows=windows)
        return replace(problem, people=tuple(people.values()))

    def words(self, names: Names, when: When) -> str:
        length = duration(round(self.hours * 60), 1)
        return f"{names.person[self.person]} comes {when(self.begin)} for {length} as well."

    def smaller(self, plan: Plan) -> Iterator[Change]:
        for begin, end, hours in _shorter(plan, self.person, self.begin, self.end, self.hours):
            yield replace(self, begin=begin, end=end, hours=hours)


@dataclass(frozen=True, slots=True)
class Hands:
    """Somebody new is in from slot `begin` to slot `end` who can do `skill`, if one is named.

    `ids` are others under which jobs ask for that skill, where it is lent for some.
    """

    skill: str | None
    begin: int
    end: int
    hours: float
    ids: tuple[str, ...] = ()
    kind: str = "hands"

    @property
    def effort(self) -> float:
        return ASK + STRANGER * self.hours

    @property
    def person(self) -> str:
        return f"lent {self.skill or 'hand'} {self.begin} {self.end}"

    def apply(self, problem: Problem) -> Problem:
        skills = tuple(sorted({self.skill, *self.ids})) if self.skill else ()
        row = Person(self.person, skills, ((self.begin, self.end),), name="somebody new")
        return replace(problem, people=(*problem.people, row))

    def words(self, names: Names, when: When) -> str:
        length = duration(round(self.hours * 60), 1)
        who = f"Somebody who can {self.skill}" if self.skill else "One more pair of hands"
        return f"{who} comes {when(self.begin)} for {length}."

    def smaller(self, plan: Plan) -> Iterator[Change]:
        for begin, end, hours in _shorter(plan, self.person, self.begin, self.end, self.hours):
            yield replace(self, begin=begin, end=end, hours=hours)


@dataclass(frozen=True, slots=True)
class Sooner:
    """Work that may begin sooner: a part that comes sooner, a cure that a heater makes shorter.

    `jobs` have their new `earliest`, `waits_for` and `windows`, `links` their new `wait` and
    `ready`; nothing else of them counts. `what` is the sentence, `key` for whoever offers it.
    """

    kind: str
    what: str
    effort: float
    jobs: tuple[Job, ...] = ()
    links: tuple[Link, ...] = ()
    key: str = ""

    @property
    def touches(self) -> set[str]:
        """The jobs (ids) that may begin sooner."""
        return {job.id for job in self.jobs} | {link.after for link in self.links}

    def apply(self, problem: Problem) -> Problem:
        jobs = {job.id: job for job in problem.jobs}
        for job in self.jobs:
            jobs[job.id] = replace(jobs[job.id], earliest=job.earliest, waits_for=job.waits_for, windows=job.windows)
        links = {(link.before, link.after): link for link in problem.links}
        for link in self.links:
            pair = link.before, link.after
            links[pair] = replace(links[pair], wait=link.wait, ready=link.ready)
        return replace(problem, jobs=tuple(jobs.values()), links=tuple(links.values()))

    def words(self, names: Names, when: When) -> str:
        return self.what

    def smaller(self, plan: Plan) -> Iterator[Change]:
        return iter(())


@dataclass(frozen=True, slots=True)
class Room:
    """One more unit of a station: two bays instead of one."""

    station: str
    kind: str = "room"

    @property
    def effort(self) -> float:
        return ROOM

    def apply(self, problem: Problem) -> Problem:
        stations = {row.id: row for row in problem.stations}
        row = stations[self.station]
        stations[row.id] = replace(row, capacity=row.capacity + 1)
        return replace(problem, stations=tuple(stations.values()))

    def words(self, names: Names, when: When) -> str:
        return f"There is room for one more on {names.station[self.station]}."

    def smaller(self, plan: Plan) -> Iterator[Change]:
        return iter(())


@dataclass(frozen=True, slots=True)
class StayHome:
    """A car is not entered: its work is due for its next event, at slot `due`, or for none.

    `asked` is the weight that its entry had, `weight` what the car then weighs.
    """

    vehicle: str
    due: int | None
    weight: float
    asked: float
    kind: str = "home"

    @property
    def effort(self) -> float:
        return STAY * self.asked

    def apply(self, problem: Problem) -> Problem:
        jobs = (
            replace(job, due=self.due) if job.vehicle == self.vehicle and job.due is not None else job
            for job in problem.jobs
        )
        cars = (replace(car, weight=self.weight) if car.id == self.vehicle else car for car in problem.vehicles)
        return replace(problem, jobs=tuple(jobs), vehicles=tuple(cars))

    def words(self, names: Names, when: When) -> str:
        return f"{names.car(self.vehicle)} stays at home."

    def smaller(self, plan: Plan) -> Iterator[Change]:
        return iter(())


def _shorter(plan: Plan, person: str, begin: int, end: int, hours: float) -> Iterator[tuple[int, int, float]]:
    """Shorter stretches in half hours, an hour at least: what is used by the plan, either half,
    half an hour less at either end.
    """
    an_hour = (end - begin) / hours
    step = max(1, round(an_hour / 2))
    spans = [
        (max(begin, row.start), min(end, row.end))
        for row in plan.placed
        if person in row.people and row.start < end and row.end > begin
    ]
    found = []
    if spans:
        first = begin + (min(since for since, _ in spans) - begin) // step * step
        last = end - (end - max(until for _, until in spans)) // step * step
        found.append((first, last))
    half = begin + (end - begin) // (2 * step) * step
    found += [(half, end), (begin, half), (begin, end - step), (begin + step, end)]
    for since, until in found:
        if an_hour <= until - since < end - begin:
            yield since, until, (until - since) / an_hour

"""Who can do a job together, the least sought-after people first."""

from __future__ import annotations

from collections import defaultdict
from itertools import combinations
from math import comb
from typing import Any

from builds.planner.axis import Axis, Fold, clip, joined, length, overlap
from builds.planner.fields import Windows
from builds.planner.problem import Job, Problem

MOST_CREWS = 60
"""Crews kept for one kind of job; beyond it, those that meet most and miss the others least."""

THRIFT = 4
"""Slots a job may end later when that spares the most sought-after person."""


class Crew:
    """People by number, the axis they share on a job, and what taking them costs in slots."""

    __slots__ = ("axis", "cost", "people")

    def __init__(self, people: tuple[int, ...], axis: Axis, cost: int) -> None:
        self.people, self.axis, self.cost = people, axis, cost

    def without_cost(self) -> Crew:
        """The same people, as if nobody else asked for them."""
        return Crew(self.people, self.axis, 0)


class Roster:
    """Finds the crews for jobs; jobs that ask for the same share the answer."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.numbers = {person.id: k for k, person in enumerate(problem.people)}
        self.hours = [clip(person.windows, problem.slots) for person in problem.people]
        self.stations = {station.id: clip(station.windows, problem.slots) for station in problem.stations}
        self.always = {station.id for station in problem.stations if station.windows is None}
        self.sought = _how_sought(problem, self.hours)
        alone = {self.place_hours(job) for job in problem.jobs if job.work and not job.hands}
        self.fold = Fold(joined((*self.hours, *alone)), problem.slots)
        self.axes: dict[Windows, Axis] = {}
        self.answers: dict[tuple[Any, ...], list[Crew]] = {}

    def axis(self, spans: Windows) -> Axis:
        """The axis of these windows, made once."""
        if spans not in self.axes:
            self.axes[spans] = Axis(self.fold.windows(spans), self.fold.size)
        return self.axes[spans]

    def crews(self, job: Job) -> list[Crew]:
        """Every crew with time enough for the job, cheapest first; [] when there is none."""
        limited = tuple(sorted(name for name in job.uses if name not in self.always))
        kind = (job.hands, job.skill, job.crew, self.pool(job), limited, job.windows, job.work > 0)
        if kind not in self.answers:
            self.answers[kind] = self._find(job, self.place_hours(job))
        return [crew for crew in self.answers[kind] if len(crew.axis.slots) >= job.work]

    def place_hours(self, job: Job) -> Windows:
        """The windows that the job and its stations leave, whoever works on it."""
        spans = clip(job.windows, self.problem.slots)
        for name in job.uses:
            if name not in self.always:
                spans = overlap(spans, self.stations[name])
        return spans

    def _find(self, job: Job, spans: Windows) -> list[Crew]:
        if job.hands == 0:
            return [Crew((), self.axis(spans if job.work else ()), 0)]
        crews = []
        for people in self.groups(job):
            shared = spans
            for person in people:
                shared = overlap(shared, self.hours[person])
            crews.append((people, shared))
        crews.sort(key=lambda pair: (self._price(pair[0]), -length(pair[1]), pair[0]))
        if len(crews) > MOST_CREWS:
            crews.sort(key=lambda pair: -length(pair[1]))
            crews = sorted(crews[:MOST_CREWS], key=lambda pair: (self._price(pair[0]), pair[0]))
        least = self._price(crews[0][0]) if crews else 0
        return [
            Crew(people, self.axis(shared), round(THRIFT * (self._price(people) - least))) for people, shared in crews
        ]

    def groups(self, job: Job) -> list[tuple[int, ...]]:
        """People by number, `hands` of them at a time and one with the skill among them."""
        if job.crew is not None:
            groups = [tuple(self.numbers[name] for name in job.crew)]
        else:
            pool = self.pool(job)
            if job.hands > 1 and comb(len(pool), job.hands) > 20 * MOST_CREWS:
                return self._some_groups(job)
            groups = list(combinations(pool, job.hands))
        able = self._able(job) if job.crew is None else self._skilled(job)
        return [group for group in groups if not able.isdisjoint(group)]

    def pool(self, job: Job) -> tuple[int, ...]:
        """Those who work on its car, by number."""
        return tuple(self.numbers[person.id] for person in self.problem.hands_for(job))

    def _skilled(self, job: Job) -> set[int]:
        return {k for k, person in enumerate(self.problem.people) if not job.skill or job.skill in person.skills}

    def _able(self, job: Job) -> set[int]:
        return self._skilled(job).intersection(self.pool(job))

    def _some_groups(self, job: Job) -> list[tuple[int, ...]]:
        """Groups grown from each able person and each start, by who shares most hours with them."""
        groups, pool = set(), self.pool(job)
        for first in self._able(job):
            for second in pool:
                group, shared = {first, second}, overlap(self.hours[first], self.hours[second])
                while len(group) < job.hands:
                    meet = {k: overlap(shared, self.hours[k]) for k in pool}
                    rest = [k for k in meet if k not in group]
                    lengths = [length(meet[k]) for k in rest]
                    nearest = rest[lengths.index(max(lengths))]
                    group.add(nearest)
                    shared = meet[nearest]
                if len(group) == job.hands:
                    groups.add(tuple(sorted(group)))
        return sorted(groups)

    def _price(self, people: tuple[int, ...]) -> float:
        return sum(self.sought[person] for person in people)


def _how_sought(problem: Problem, hours: list[Windows]) -> list[float]:
    """Per person, 0 to 1: how much of the hours that could do their skills those skills ask for."""
    asked: dict[str, int] = defaultdict(int)
    for job in problem.jobs:
        if job.skill and job.hands:
            asked[job.skill] += job.work
    offered: dict[str, int] = defaultdict(int)
    for person, spans in zip(problem.people, hours, strict=True):
        for skill in person.skills:
            offered[skill] += length(spans)
    raw = [sum(asked[skill] / max(1, offered[skill]) for skill in person.skills) for person in problem.people]
    return [value / max(raw) if max(raw) else 0.0 for value in raw]

"""Somebody is in who was not: one of the garage for some hours more, or somebody new."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from builds.planner.axis import clip, joined
from builds.planner.plan import Plan
from builds.planner.problem import Person, Problem
from builds.remedies.engine.changes.change import Change

ASKING, STRANGER = 2.0, 1.5
"""Hours of trouble to find somebody new, and those that each hour of his counts. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class ExtraSession(Change):
    """Somebody (an id) is in from slot `begin` to slot `end` as well; `hours` it is long."""

    person: str
    begin: int
    end: int
    hours: float
    kind: str = "session"

    @property
    def effort(self) -> float:
        return self.hours

    def apply(self, problem: Problem) -> Problem:
        people = {person.id: person for person in problem.people}
        person = people[self.person]
        windows = joined((clip(person.windows, problem.slots), ((self.begin, self.end),)))
        people[person.id] = replace(person, windows=windows)
        return replace(problem, people=tuple(people.values()))

    def smaller(self, plan: Plan) -> Iterator[Change]:
        for begin, end, hours in _shorter(plan, self.person, self.begin, self.end, self.hours):
            yield replace(self, begin=begin, end=end, hours=hours)


@dataclass(frozen=True, slots=True)
class Hands(Change):
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
        return ASKING + STRANGER * self.hours

    @property
    def person(self) -> str:
        return f"lent {self.skill or 'hand'} {self.begin} {self.end}"

    def apply(self, problem: Problem) -> Problem:
        skills = tuple(sorted({self.skill, *self.ids})) if self.skill else ()
        person = Person(self.person, skills, ((self.begin, self.end),), name="somebody new")
        return replace(problem, people=(*problem.people, person))

    def smaller(self, plan: Plan) -> Iterator[Change]:
        for begin, end, hours in _shorter(plan, self.person, self.begin, self.end, self.hours):
            yield replace(self, begin=begin, end=end, hours=hours)


def _shorter(plan: Plan, person: str, begin: int, end: int, hours: float) -> Iterator[tuple[int, int, float]]:
    """Shorter stretches in half hours, an hour at least: what is used by the plan, either half,
    half an hour less at either end.
    """
    an_hour = (end - begin) / hours
    step = max(1, round(an_hour / 2))
    used = [
        (max(begin, placed.start), min(end, placed.end))
        for placed in plan.placed
        if person in placed.people and placed.start < end and placed.end > begin
    ]
    stretches = []
    if used:
        first = begin + (min(since for since, _ in used) - begin) // step * step
        last = end - (end - max(until for _, until in used)) // step * step
        stretches.append((first, last))
    half = begin + (end - begin) // (2 * step) * step
    stretches += [(half, end), (begin, half), (begin, end - step), (begin + step, end)]
    for since, until in stretches:
        if an_hour <= until - since < end - begin:
            yield since, until, (until - since) / an_hour

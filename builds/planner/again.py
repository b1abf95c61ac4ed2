"""Planning again: the work in the order in which it stood, and what a plan is worth by its promises."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builds.planner.aim import Aim
from builds.planner.axis import clip
from builds.planner.fields import Windows
from builds.planner.model import NEVER, Model
from builds.planner.order import listed
from builds.planner.place import Draft, Placer
from builds.planner.plan import Placed, Plan, Score
from builds.planner.problem import Problem, Promise
from builds.planner.search import as_plan
from builds.planner.words import When, slot_number


def planned_in_order(problem: Problem, stood: Sequence[Placed], *, when: When = slot_number) -> Plan:
    """The plan of the list in the order in which work stood before, slots of this problem.

    Once with the people it had then, once with whoever can do it; the better one. What is new comes
    last. O(one pass of placing, twice).
    """
    model = Model(problem)
    placer, aim = Placer(model), Aim(model)
    number = model.number
    stand = {number[place.id]: place for place in stood if place.id in number}
    keys = [(stand[j].start, stand[j].end) if j in stand else (NEVER, NEVER) for j in range(model.size)]
    order, numbers = listed(model, keys), model.roster.numbers
    had = {j: sorted(numbers[name] for name in place.people if name in numbers) for j, place in stand.items()}
    crews = [
        [crew for crew in able if j in had and sorted(crew.people) == had[j]] or able
        for j, able in enumerate(model.crews)
    ]
    tried = [placer.place(Draft(order, some, model.earliest)) for some in (crews, model.crews)]
    return as_plan(model, min(tried, key=aim.value), 0, len(tried), when)


def worth(problem: Problem, plan: Plan) -> Score:
    """The score of a plan, its last part raised for each promise that it breaks; lower is better."""
    *first, last = plan.score
    placed = {place.id: place for place in plan.placed}
    people = {person.id: clip(person.windows, problem.slots) for person in problem.people}
    jobs = {job.id for job in problem.jobs}
    broken = sum(
        promise.job in jobs and not _kept(promise, placed.get(promise.job), window)
        for promise in problem.before
        if (window := _session(promise, people))
    )
    return (*first, last + problem.keep * broken)


def _session(promise: Promise, people: Mapping[str, Windows]) -> tuple[int, int] | None:
    """The window of the first of its people in which the work was to start; none for what is past."""
    known = [name for name in people if name in promise.people]
    if not known or len(known) < len(promise.people):
        return None
    return next(((begin, end) for begin, end in people[known[0]] if begin <= promise.start < end), None)


def _kept(promise: Promise, now: Placed | None, session: tuple[int, int]) -> bool:
    """The same people, and a start within that session."""
    return now is not None and session[0] <= now.start < session[1] and set(now.people) == set(promise.people)

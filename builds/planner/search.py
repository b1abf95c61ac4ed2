"""From a problem to a plan: the first list placed, then better lists for as long as allowed."""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter

from builds.planner.evolve import Evolution
from builds.planner.model import NEVER, Model
from builds.planner.place import Places
from builds.planner.plan import Placed, Plan, Progress, Unplaced
from builds.planner.problem import Problem
from builds.planner.unplaced import why_unplaced
from builds.planner.words import Names, When, slot_number

from . import check

TELL_EVERY = 0.1
"""Seconds between two words on progress."""


class FaultyPlan(RuntimeError):
    """The planner made a plan that the checker refuses: a defect, never an answer."""


def plan(
    problem: Problem,
    *,
    seconds: float = 0,
    seed: int = 1,
    tries: int | None = None,
    progress: Callable[[Progress], None] | None = None,
    stop: Callable[[], bool] | None = None,
    when: When = slot_number,
) -> Plan:
    """The best plan found within `seconds` of planning (0: the first list, or what was promised).

    With `tries` the search places that many lists, and the same seed gives the same plan.
    `progress` is told how far it is, at most ten times a second; `stop` ends the search when it
    returns true; `when` writes slots in sentences. Raises FaultyPlan rather than return a plan
    with a fault.
    """
    begun = perf_counter()
    model = Model(problem)
    search = Evolution(model, seed)
    first, tried, told = search.best.value, 1, 0.0
    if seconds if tries is None else tries > 1:
        for _ in search.run():
            tried += 1
            now = perf_counter() - begun
            if progress and now - told >= TELL_EVERY:
                told = now
                progress(Progress(tried, search.best.value, first, now))
            if tried == tries or (tries is None and now >= seconds) or (stop and stop()):
                break
    return as_plan(model, search.best.places, perf_counter() - begun, tried, when)


def as_plan(model: Model, places: Places, seconds: float, tried: int, when: When) -> Plan:
    """The state of a pass as a plan that has passed the checker."""
    problem, names = model.problem, Names(model.problem)
    placed, unplaced = [], []
    for j, job in enumerate(problem.jobs):
        if places.end[j] == NEVER:
            unplaced.append(Unplaced(job.id, why_unplaced(model, places, j, names, when)))
        else:
            people = tuple(problem.people[k].id for k in places.crew[j])
            placed.append(Placed(job.id, places.start[j], places.end[j], people))
    placed.sort(key=lambda place: (place.start, place.end, model.number[place.id]))
    answer = Plan(tuple(placed), tuple(unplaced), seconds=seconds, tried=tried)
    faults = check.faults(problem, answer)
    if faults:
        raise FaultyPlan(" ".join(faults))
    return Plan(answer.placed, answer.unplaced, check.score(problem, answer), seconds, tried)

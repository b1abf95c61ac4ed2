"""From a problem to a plan: the first list placed, then better lists for as long as allowed."""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter

from . import check
from .model import NEVER, Model
from .order import first_order
from .place import Placer, Places
from .plan import Placed, Plan, Progress, Unplaced
from .problem import Problem
from .unplaced import why_unplaced
from .words import When, slot_number


class FaultyPlan(RuntimeError):
    """The planner made a plan that the checker refuses: a defect, never an answer."""


def first_plan(problem: Problem) -> Plan:
    """The plan of the first list, without any search."""
    return plan(problem)


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
    """The best plan found within `seconds` of planning (0: the first list alone).

    With `tries` the search places that many lists, and the same seed gives the same plan.
    `progress` is told how far it is, at most ten times a second; `stop` ends the search when it
    returns true; `when` writes slots in sentences. Raises FaultyPlan rather than return a plan
    with a fault.
    """
    begun = perf_counter()
    model = Model(problem)
    order = first_order(model)
    places = Placer(model).place(order)
    return as_plan(model, places, perf_counter() - begun, 1, when)


def as_plan(model: Model, places: Places, seconds: float, tried: int, when: When) -> Plan:
    """The state of a pass as a plan that has passed the checker."""
    problem = model.problem
    placed, unplaced = [], []
    for j, job in enumerate(problem.jobs):
        if places.end[j] == NEVER:
            unplaced.append(Unplaced(job.id, why_unplaced(model, places, j, when)))
        else:
            people = tuple(problem.people[k].id for k in places.crew[j])
            placed.append(Placed(job.id, places.start[j], places.end[j], people))
    placed.sort(key=lambda row: (row.start, row.end, model.number[row.id]))
    answer = Plan(tuple(placed), tuple(unplaced), seconds=seconds, tried=tried)
    found = check.faults(problem, answer)
    if found:
        raise FaultyPlan(" ".join(found))
    return Plan(answer.placed, answer.unplaced, check.score(problem, answer), seconds, tried)

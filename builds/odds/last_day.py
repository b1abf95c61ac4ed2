"""The last day on which a thing may come before its car is late: one job begun later, planned again."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import replace

from builds.odds.in_time import as_it_stands, in_time
from builds.planner.plan import Plan
from builds.planner.problem import Problem
from builds.planner.search import plan as planned

TRIES = 16
"""Lists placed for a day that is tried: as many as for the plan that would follow if it came then."""


def last_day(problem: Problem, plan: Plan, job: str, opens: int, days: Sequence[int]) -> int | None:
    """The latest of `days` on which what the job waits for may come and leave its car in time.

    `days` are their first slots, rising, the first of them begun already; `opens` is the first slot at
    which all but its parts lets the job start. None where its car has nothing due, is late however soon
    it comes, or does not wait for it: a wanted job that may come any day. The day is found by halving
    between the one on which the plan that stands begins the job and the one on which the car leaves,
    each tried day planned again from the plan that stands.
    """
    waiting = next((open_job for open_job in problem.jobs if open_job.id == job), None)
    if waiting is None:
        return None
    dues = [must.due for must in problem.must_do(waiting.vehicle) if must.due is not None]
    days = days[: bisect_right(days, max(dues, default=-1))]
    if not days:
        return None
    stands = as_it_stands(problem, plan)

    def works(day: int) -> bool:
        moved = _begun_from(stands, job, max(opens, day))
        return in_time(moved, planned(moved, tries=TRIES), waiting.vehicle)

    fits, beyond = _known(problem, plan, job, waiting.vehicle, days), len(days)
    if fits is None:
        if not works(days[0]):
            return None
        fits = 0
    while beyond - fits > 1:
        middle = (fits + beyond) // 2
        if works(days[middle]):
            fits = middle
        else:
            beyond = middle
    waits = waiting.must_do or fits < len(days) - 1
    return days[fits] if waits else None


def _known(problem: Problem, plan: Plan, job: str, car: str | None, days: Sequence[int]) -> int | None:
    """Which of the days the plan that stands proves by itself; None where the car is late in it."""
    start = next((placed.start for placed in plan.placed if placed.id == job), None)
    if start is None or not in_time(problem, plan, car):
        return None
    return max(0, bisect_right(days, start) - 1)


def _begun_from(problem: Problem, job: str, slot: int) -> Problem:
    """The job begins no sooner than a slot; one in hand is put down until then."""
    moved = (
        replace(open_job, earliest=slot, started=False, waits_for=None) if open_job.id == job else open_job
        for open_job in problem.jobs
    )
    return replace(problem, jobs=tuple(moved))

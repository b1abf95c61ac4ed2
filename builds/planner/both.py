"""Two searches of one problem at once, the second with another seed on a core that is free: the better plan of both."""

from __future__ import annotations

import os
from dataclasses import replace
from multiprocessing import get_context
from multiprocessing.connection import Connection
from time import time

from builds.planner.again import worth
from builds.planner.plan import Plan
from builds.planner.problem import Problem
from builds.planner.search import plan

WORTH = 1.0
"""Seconds of search from which another process is worth its start."""

ANOTHER = 7919
"""From one seed to that of the other search."""

WRITING = 0.05
"""Seconds that the other search ends before its time, to hand its plan over, and that it is waited for."""


def plan_on_both(problem: Problem, *, seconds: float, seed: int = 1) -> Plan:
    """The better plan of two searches of `seconds`; of one where the time is short or no core is free."""
    if seconds < WORTH or not is_core_free():
        return plan(problem, seconds=seconds, seed=seed)
    context = get_context("spawn")
    ours, theirs = context.Pipe(duplex=False)
    until = time() + seconds - WRITING
    other = context.Process(target=_search, args=(theirs, problem, until, seed + ANOTHER), daemon=True)
    other.start()
    theirs.close()
    try:
        mine = plan(problem, seconds=seconds, seed=seed)
        found = _found(ours)
    finally:
        other.kill()
        other.join()
        ours.close()
    if found is None:
        return mine
    better = min(mine, found, key=lambda answer: worth(problem, answer))
    return replace(better, seconds=mine.seconds, tried=mine.tried + found.tried)


def is_core_free() -> bool:
    """Whether the machine has more cores than were asked for in the last minute, this process counted in.

    Not where nobody can tell: some systems count no load.
    """
    try:
        load = os.getloadavg()[0]
    except (AttributeError, OSError):
        return False
    return load + 1 < (os.cpu_count() or 1)


def _found(ours: Connection) -> Plan | None:
    """What the other search hands over; None where it is not ready, or gone."""
    try:
        answer = ours.recv() if ours.poll(WRITING) else None
    except EOFError:
        return None
    return answer if isinstance(answer, Plan) else None


def _search(theirs: Connection, problem: Problem, until: float, seed: int) -> None:
    """In a process of its own, until that moment (seconds since 1970)."""
    left = until - time()
    if left > 0:
        theirs.send(plan(problem, seconds=left, seed=seed))

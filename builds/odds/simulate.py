"""Many runs of one plan with lengths drawn from the estimates: the odds it has."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from random import Random

from builds.odds.answer import Odds
from builds.odds.course import Course
from builds.odds.estimates import BetaPert, Figures
from builds.odds.tally import Tally
from builds.planner.plan import Plan
from builds.planner.problem import Problem

TOLD = 100
"""How many times a simulation tells how far it is."""

Draw = Callable[[], float]


def simulate(
    problem: Problem,
    plan: Plan,
    estimates: Mapping[str, Figures],
    *,
    runs: int = 1000,
    seed: int = 1,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Odds:
    """The odds after `runs` runs, or after those done when `stop` returned true.

    `estimates` gives job id -> (low, likely, high), minutes of work still to do; a job without
    figures takes what the plan gives it, one that the plan gives no work takes none. Each length is
    drawn by itself: a month in which everything takes longer is not in the odds. `stop` is
    asked before each run, `progress` told (runs done, runs asked) about a hundred times. The same
    seed gives the same answer. ValueError for a plan that does not hold for the problem, for
    figures out of order, or for fewer than no runs.
    """
    if runs < 0:
        raise ValueError("There cannot be fewer than no runs.")
    tally, draws = _prepared(problem, plan, estimates, seed)
    step = max(1, runs // TOLD)
    while tally.runs < runs and not (stop and stop()):
        _run(tally, draws)
        if progress and (tally.runs % step == 0 or tally.runs == runs):
            progress(tally.runs, runs)
    return tally.odds(runs)


def runs(problem: Problem, plan: Plan, estimates: Mapping[str, Figures], *, seed: int = 1) -> Iterator[Tally]:
    """One more run at every step, without end: `tally.odds()` is the answer so far.

    After n steps it is what `simulate` says with `runs=n`, so an answer can be shown early and
    refined. Errors as there, on the first step.
    """
    tally, draws = _prepared(problem, plan, estimates, seed)
    while True:
        _run(tally, draws)
        yield tally


def _prepared(
    problem: Problem, plan: Plan, estimates: Mapping[str, Figures], seed: int
) -> tuple[Tally, list[Draw | float]]:
    """A count at nothing, and for each job of the course its length or how to draw one."""
    course = Course(problem, plan)
    draws: list[Draw | float] = []
    for job, planned in zip(course.jobs, course.planned, strict=True):
        figures = estimates.get(job.id) if planned else None
        draws.append(planned if figures is None else _draw(BetaPert(*figures), f"{seed} {job.id}"))
    return Tally(problem, course, seed), draws


def _draw(length: BetaPert, seed: str) -> Draw | float:
    """How to draw the lengths of a job from a stream of its own.

    Run k then gives a job the same luck in every plan it is in, so that two plans, or two sets of
    figures, differ by what they are and not by chance.
    """
    if not length.span:
        return length.low
    beta, low, span = Random(seed).betavariate, length.low, length.span
    first, second = length.alpha, length.beta
    return lambda: low + span * beta(first, second)


def _run(tally: Tally, draws: list[Draw | float]) -> None:
    works = [draw() if callable(draw) else draw for draw in draws]
    _, ends, causes = tally.course.walk(works)
    tally.add(ends, causes)

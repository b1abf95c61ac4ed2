"""Many runs of a problem with lengths drawn from the estimates: the odds it has."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from math import ceil, exp, inf
from random import Random

from builds.odds.answer import Odds
from builds.odds.course import Course
from builds.odds.estimates import BetaPert, Figures
from builds.odds.tally import Tally
from builds.planner.problem import Problem

TOLD = 100
"""How many times a simulation tells how far it is."""

SAME = 1e-9
"""Parts of a slot that are no more than the error of a float."""

Draw = Callable[[float], int]
"""From the factor that all lengths of a run share to the slots of a job."""


def simulate(
    problem: Problem,
    estimates: Mapping[str, Figures],
    *,
    runs: int = 1000,
    seed: int = 1,
    shared: float = 0.0,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Odds:
    """The odds after `runs` runs, or after those done when `stop` returned true.

    `estimates` gives job id -> (low, likely, high), minutes of work still to do; a job without
    figures takes the work that the problem gives it, one without work takes none. Each length is
    drawn by itself and rounded up to whole slots; before that all lengths of a run are multiplied by
    a factor that they share, whose logarithm is normal around 0 with deviation `shared` (0: none): a
    garage whose estimates are all too short is late everywhere at once. `stop` is asked before each
    run, `progress` told (runs done, runs asked) about a hundred times. The same seed gives the same answer. ValueError
    for figures out of order, for fewer than no runs, or for a deviation below 0.
    """
    if runs < 0:
        raise ValueError("There cannot be fewer than no runs.")
    tally, more = _prepared(problem, estimates, seed, shared)
    step = max(1, runs // TOLD)
    while tally.runs < runs and not (stop and stop()):
        next(more)
        if progress and (tally.runs % step == 0 or tally.runs == runs):
            progress(tally.runs, runs)
    return tally.odds(runs)


def runs(problem: Problem, estimates: Mapping[str, Figures], *, seed: int = 1, shared: float = 0.0) -> Iterator[Tally]:
    """One more run at every step, without end: `tally.odds()` is the answer so far.

    After n steps it is what `simulate` says with `runs=n`, so an answer can be shown early and
    refined. Errors as there, on the first step.
    """
    _, more = _prepared(problem, estimates, seed, shared)
    yield from more


def own_ranges(problem: Problem) -> dict[str, Figures]:
    """The figures in minutes that the jobs of a problem bring with them."""
    minutes = problem.slot_minutes
    return {
        job.id: (job.range[0] * minutes, job.range[1] * minutes, job.range[2] * minutes)
        for job in problem.jobs
        if job.range is not None
    }


def _prepared(
    problem: Problem, estimates: Mapping[str, Figures], seed: int, shared: float
) -> tuple[Tally, Iterator[Tally]]:
    """A count at nothing, and that same count after one more run at every step."""
    if not 0 <= shared < inf:
        raise ValueError("A deviation must be a finite number from 0 on.")
    draws = []
    for job in problem.jobs:
        figures = estimates.get(job.id) if job.work else None
        minutes = problem.slot_minutes
        draws.append(_known(job.work) if figures is None else _drawn(BetaPert(*figures), minutes, f"{seed} {job.id}"))
    tally = Tally(problem, Course(problem), seed)
    return tally, _endless(tally, draws, seed, shared)


def _known(work: int) -> Draw:
    return lambda _: work


def _drawn(length: BetaPert, slot_minutes: int, seed: str) -> Draw:
    """How to draw the slots of a job from a stream of its own.

    Run k then gives a job the same luck in every problem it is in, so that two problems, or two sets
    of figures, differ by what they are and not by chance.
    """
    random = Random(seed)
    return lambda shared: max(1, ceil(shared * length.sample(random) / slot_minutes - SAME))


def _endless(tally: Tally, draws: list[Draw], seed: int, shared: float) -> Iterator[Tally]:
    luck = Random(f"{seed} shared")
    while True:
        longer = exp(luck.gauss(0, shared)) if shared else 1
        tally.add(*tally.course.run([draw(longer) for draw in draws]))
        yield tally

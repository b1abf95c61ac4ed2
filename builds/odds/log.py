"""What the log says of the estimates: how much longer than written down each kind of work takes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builds.odds.estimates import Figures, scaled

PRIOR_JOBS = 4
"""Jobs' worth of belief in the estimates as they stand; our own choice, no source."""

MOST_TIMES = 5
"""A job that took more than so many times its figure, or less than that part of it, counts as so
many: a clock left running must not speak for every job of its kind. Our own choice, no source."""


@dataclass(frozen=True, slots=True)
class FinishedJob:
    """A finished job: the kinds of work it was, and its minutes as written down and as worked."""

    kinds: tuple[str, ...]
    likely: float
    actual: float


@dataclass(frozen=True, slots=True)
class Factor:
    """Times the estimate that work of one kind takes, from `jobs` finished jobs."""

    kind: str
    times: float
    jobs: int

    def sentence(self, label: str | None = None) -> str:
        """ "Your brake jobs take 1.4 times what you write down (7 jobs)."; label: "brake"."""
        counted = f"{self.jobs} job{'s' * (self.jobs != 1)}"
        shown = f"{self.times:.1f}"
        takes = "about" if shown == "1.0" else f"{shown} times"
        return f"Your {label or self.kind} jobs take {takes} what you write down ({counted})."


def factors(log: Iterable[FinishedJob]) -> dict[str, Factor]:
    """For each kind of work, exp(sum of ln(actual / likely) / (n + PRIOR_JOBS)) over its n jobs.

    The mean of the logarithms, so that twice as long and half as long cancel out, drawn toward 1
    as if PRIOR_JOBS more jobs had taken exactly what was written down: one job that took twice as
    long says 1.15, sixteen say 1.74. A job of several kinds counts for each of them; one without
    minutes on either side says nothing and is not counted.
    """
    logs: dict[str, list[float]] = {}
    for job in log:
        if job.likely > 0 and job.actual > 0:
            ratio = min(max(job.actual / job.likely, 1 / MOST_TIMES), MOST_TIMES)
            for kind in dict.fromkeys(job.kinds):
                logs.setdefault(kind, []).append(math.log(ratio))
    return {
        kind: Factor(kind, math.exp(math.fsum(ratios) / (len(ratios) + PRIOR_JOBS)), len(ratios))
        for kind, ratios in logs.items()
    }


def corrected(figures: Figures, kinds: Iterable[str], known: Mapping[str, Factor]) -> Figures:
    """The figures times what the log says of a job of these kinds.

    Of several kinds the geometric mean; kinds the log knows nothing of leave the figures alone.
    Nothing calls this unless the owner asked for it.
    """
    logs = [math.log(known[kind].times) for kind in dict.fromkeys(kinds) if kind in known]
    return scaled(figures, math.exp(math.fsum(logs) / len(logs))) if logs else figures


PRIOR_SPREAD = 0.2
"""Standard deviation of the logarithm of what all jobs of a garage share, while nothing is known of
it: two garages in three lie between 0.82 and 1.22 times what they write. Our own choice, no source."""


def shared_spread(log: Iterable[FinishedJob]) -> float:
    """How far off the estimates of a garage may be all at once: the deviation of the log of that factor.

    `ln(actual / likely)` of n finished jobs has a variance v; the mean that they share is known to
    v / n, and before any job to PRIOR_SPREAD². The two are combined as a normal prior with normal
    data: 1 / (1 / PRIOR_SPREAD² + n / v), so that it starts at PRIOR_SPREAD and shrinks as the log
    grows. v is drawn toward 1 / 4 as if PRIOR_JOBS more jobs had that variance (our own choice, no
    source). Source of the combination: the conjugate normal mean of any textbook of statistics; from
    memory. Jobs are clipped as in `factors`; one without minutes says nothing.
    """
    ratios = [
        math.log(min(max(job.actual / job.likely, 1 / MOST_TIMES), MOST_TIMES))
        for job in log
        if job.likely > 0 and job.actual > 0
    ]
    count = len(ratios)
    mean = math.fsum(ratios) / count if count else 0.0
    squares = math.fsum((ratio - mean) ** 2 for ratio in ratios)
    variance = (squares + PRIOR_JOBS / 4) / (count + PRIOR_JOBS)
    return 1 / math.sqrt(1 / PRIOR_SPREAD**2 + count / variance)

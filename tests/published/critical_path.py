"""The sum by hand: the longest chain of activities, and PERT's normal curve on its end."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from graphlib import TopologicalSorter
from statistics import NormalDist

from builds.odds.estimates import Figures


@dataclass(frozen=True, slots=True)
class CriticalPath:
    """The activities of the longest chain in order, and the mean and variance of its length."""

    activities: tuple[str, ...]
    mean: float
    variance: float

    def odds(self, by: float) -> float:
        """The chance that the chain is done by `by`, taken as normal.

        Other chains count for nothing here, so with several of like length it promises too much.
        """
        if not self.variance:
            return float(self.mean <= by)
        return NormalDist(self.mean, math.sqrt(self.variance)).cdf(by)


def pert_variance(low: float, high: float) -> float:
    """((high - low) / 6)², the variance that PERT takes whatever the likely figure is.

    It is no variance of the beta distribution: that one is 1/28 of the span squared when likely stands in
    the middle (PERT says 1/36, two ninths less) and 5/252 when it stands at an end (PERT says two
    fifths more). Simulations do not use it.
    """
    return ((high - low) / 6) ** 2


def critical_path_normal(activities: Mapping[str, tuple[Figures, Sequence[str]]]) -> CriticalPath:
    """The chain with the longest mean, and of equals the one with the largest variance.

    `activities` gives name -> ((low, likely, high), names it waits for), in any one unit. Means
    (a + 4 m + b) / 6, variances ((b - a) / 6)², summed along the chain; nobody shares people or
    places. KeyError for an unknown name, graphlib.CycleError for a circle, ValueError when there
    are no activities. Source: PERT as textbooks of operations research give it.
    """
    best: dict[str, tuple[Fraction, Fraction]] = {}
    chains: dict[str, tuple[str, ...]] = {}
    for name in TopologicalSorter({name: before for name, (_, before) in activities.items()}).static_order():
        (low, likely, high), before = activities[name]
        a, m, b = Fraction(low), Fraction(likely), Fraction(high)
        came = max(before, key=lambda first: best[first], default=None)
        mean, variance = (Fraction(), Fraction()) if came is None else best[came]
        best[name] = mean + (a + 4 * m + b) / 6, variance + ((b - a) / 6) ** 2
        chains[name] = (*(() if came is None else chains[came]), name)
    last = max(best, key=lambda name: best[name])
    return CriticalPath(chains[last], float(best[last][0]), float(best[last][1]))

"""Three figures for one piece of work, and the beta distribution they stand for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from random import Random

Figures = tuple[float, float, float]
"""Low, likely and high, in minutes of work."""


@dataclass(frozen=True, slots=True)
class BetaPert:
    """The beta distribution on [low, high] with its peak at `likely`, peakedness 4.

    Minutes of work. ValueError unless 0 <= low <= likely <= high, all finite. Low = high is a job
    of known length. Source: the beta-PERT in its usual form, alpha = 1 + 4 (m - a) / (b - a) and
    beta = 1 + 4 (b - m) / (b - a), which has the mean (a + 4 m + b) / 6 of the 1959 PERT papers.
    """

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        if not all(math.isfinite(figure) for figure in (self.low, self.likely, self.high)):
            raise ValueError("The three figures must be finite numbers.")
        if not 0 <= self.low <= self.likely <= self.high:
            raise ValueError("The three figures must run from low over likely to high, from 0 on.")

    @property
    def span(self) -> float:
        """High less low; 0 for a known length."""
        return self.high - self.low

    @property
    def alpha(self) -> float:
        """The first shape; 1 for a known length, where it shapes nothing."""
        return 1 + 4 * (self.likely - self.low) / self.span if self.span else 1.0

    @property
    def beta(self) -> float:
        """The second shape; 1 for a known length."""
        return 1 + 4 * (self.high - self.likely) / self.span if self.span else 1.0

    @property
    def mean(self) -> float:
        """(low + 4 likely + high) / 6, exact for this distribution."""
        return (self.low + 4 * self.likely + self.high) / 6

    @property
    def variance(self) -> float:
        """(mean - low) (high - mean) / 7, exact; the textbooks' ((high - low) / 6)² is a rule of thumb."""
        return (self.mean - self.low) * (self.high - self.mean) / 7

    def sample(self, random: Random) -> float:
        """One length of the job, in minutes."""
        if not self.span:
            return self.low
        return self.low + self.span * random.betavariate(self.alpha, self.beta)


def scaled(figures: Figures, factor: float) -> Figures:
    """All three figures times `factor`; ValueError unless it is finite and above 0."""
    if not (math.isfinite(factor) and factor > 0):
        raise ValueError("A factor must be a finite number above 0.")
    low, likely, high = figures
    return low * factor, likely * factor, high * factor


def left_of(figures: Figures, spent: float) -> Figures:
    """The figures of what is left of a job in hand after `spent` minutes: each less that, from 0.

    A job past its high figure has nothing left by its own figures; whoever knows better puts down
    new ones.
    """
    low, likely, high = (max(0.0, figure - spent) for figure in figures)
    return low, likely, high


WITHOUT_FIGURES = (0.75, 1.0, 2.0)
"""Times its likely figure that a job may take of which only that one was written; common practice
(work overruns further than it falls short), no source."""


def spread(figures: Figures) -> Figures:
    """The figures as they are, or those of a job for which all three are the same, spread by `WITHOUT_FIGURES`."""
    low, likely, high = figures
    if low != high:
        return figures
    first, middle, last = WITHOUT_FIGURES
    return likely * first, likely * middle, likely * last

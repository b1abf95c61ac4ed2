"""What many runs of a plan say: of each car, of each job, and how sure the number of runs is."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from statistics import NormalDist

SURE_OF_THE_BAND = 0.95
Z = NormalDist().inv_cdf((1 + SURE_OF_THE_BAND) / 2)

EIGHT_OF_TEN = 0.8


def wilson(count: int, runs: int) -> tuple[float, float]:
    """The 95 % band for a share of which `count` of `runs` were seen; (0, 1) before any run.

    Source: Wilson's score interval (Journal of the American Statistical Association 22, 1927,
    209-212), without correction for continuity. ValueError unless 0 <= count <= runs.
    """
    if not 0 <= count <= runs:
        raise ValueError("A count must lie between 0 and the number of runs.")
    if not runs:
        return 0.0, 1.0
    share, weight = count / runs, Z * Z / runs
    middle = (share + weight / 2) / (1 + weight)
    half = Z * math.sqrt(share * (1 - share) / runs + weight / (4 * runs)) / (1 + weight)
    low = 0.0 if count == 0 else max(0.0, middle - half)
    high = 1.0 if count == runs else min(1.0, middle + half)
    return low, high


@dataclass(frozen=True, slots=True)
class JobOdds:
    """A job in `runs` runs: in how many it held a car up.

    It did when it was on the chain of waits that the last safety or needed job of the car ended.
    """

    job: str
    runs: int
    held_up: int


@dataclass(frozen=True, slots=True)
class VehicleOdds:
    """A car over `runs` runs: what must be done for it is its safety and its needed jobs.

    `in_time`: runs with all of those done, each by its due slot; None when none has one. `moments`:
    for each run the slot by which all of them are done, in rising order, infinite when not before
    the horizon. `held_by`: the jobs, of whichever car, that held it up, the most frequent first.
    """

    vehicle: str
    runs: int
    in_time: int | None
    moments: tuple[float, ...]
    held_by: tuple[JobOdds, ...]

    @property
    def share(self) -> float | None:
        """The odds, from 0 to 1; None without a due slot or without runs."""
        return None if self.in_time is None or not self.runs else self.in_time / self.runs

    @property
    def band(self) -> tuple[float, float] | None:
        """The 95 % band that so many runs leave of the odds; None without a due slot."""
        return None if self.in_time is None else wilson(self.in_time, self.runs)

    def ready_by(self, share: float = EIGHT_OF_TEN) -> int | None:
        """The slot by which the car was ready in that share of the runs; None: not in the plan."""
        if not self.moments:
            return None
        moment = self.moments[max(0, math.ceil(share * self.runs - 1e-9) - 1)]
        return None if moment == math.inf else int(moment)


@dataclass(frozen=True, slots=True)
class Odds:
    """The answer after `runs` runs of `asked`: cars by id.

    A car without a safety or needed job has nothing to be late with and is left out.
    """

    runs: int
    asked: int
    seed: int
    vehicles: Mapping[str, VehicleOdds]

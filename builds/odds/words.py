"""What the odds say in words; moments are left to whoever knows the garage's clock."""

from __future__ import annotations

import math

from builds.odds.answer import JobOdds, VehicleOdds
from garage.engine.words import work_words


def in_tens(count: int, runs: int) -> str:
    """A share as people say it: "8 of 10 runs"; never "10 of 10" or "0 of 10" unless it is all.

    ValueError without runs or for a count beyond them.
    """
    if not 0 <= count <= runs or not runs:
        raise ValueError("A count must lie between 0 and the number of runs, and runs be there.")
    if count in (0, runs):
        return counted(count, runs)
    tenths = math.floor(10 * count / runs + 0.5)
    if tenths == 10:
        return "more than 9 of 10 runs"
    return f"{tenths} of 10 runs" if tenths else "fewer than 1 of 10 runs"


def percent(count: int, runs: int) -> int:
    """The share in whole per cent; 0 and 100 only when it is none and all."""
    if count in (0, runs):
        return 100 if count else 0
    return min(99, max(1, math.floor(100 * count / runs + 0.5)))


def in_time(car: VehicleOdds) -> str:
    """ "Ready in time in 8 of 10 runs (82 %, 79 to 85 as far as so many runs can tell)."

    The band is rounded outwards. Empty for a car that has nothing due.
    """
    if car.in_time is None or car.band is None:
        return ""
    if not car.runs:
        return "No run yet."
    low, high = math.floor(100 * car.band[0]), math.ceil(100 * car.band[1])
    return (
        f"Ready in time in {in_tens(car.in_time, car.runs)} ({percent(car.in_time, car.runs)} %, "
        f"{low} to {high} as far as so many runs can tell)."
    )


def held_up(job: JobOdds) -> str:
    """ "Held its car up in 6 of 10 runs."; empty before any run."""
    return f"Held its car up in {in_tens(job.held_up, job.runs)}." if job.runs else ""


MAKES_IT, WILL_NOT = 0.8, 0.2
"""Shares of the runs from which a car makes its event, and below which it will not."""


def band(car: VehicleOdds) -> str:
    """ "79 to 85 % as far as so many runs can tell.", rounded outwards; empty without a due slot or runs."""
    if car.band is None or not car.runs:
        return ""
    return f"{math.floor(100 * car.band[0])} to {math.ceil(100 * car.band[1])} % as far as so many runs can tell."


def verdict(share: float) -> str:
    """ "makes it" from 8 of 10 runs on, "will not make it" below 2 of 10, else "touch and go"."""
    if share >= MAKES_IT:
        return "makes it"
    return "will not make it" if share < WILL_NOT else "touch and go"


def counted(count: int, runs: int) -> str:
    """ "69 of 77 runs", "all of 1,000 runs", "none of 1,000 runs"."""
    how_many = {0: "none", runs: "all"}.get(count, f"{count:,}")
    return f"{how_many} of {runs:,} run{'s' * (runs != 1)}"


def outlook(
    car: VehicleOdds, ready: str | None, more_minutes: int | None, *, beside: str = "", but_for: bool = False
) -> str:
    """ "Makes it: in time in 912 of 1,000 runs, ready Thu 20:30 in 8 of 10; it can take 3 h more work."

    `ready` writes the moment of `car.ready_by()`, None when fewer than 8 of 10 runs end at all;
    `beside` is what `beside_the_plan` says of it; `more_minutes` is how long one more job at the end may be,
    None when the plan has it late as it is, and no matter to a car that does not make it; `but_for` when
    something else than its work stands in the way: then a good word is its work's. "Not known: no run yet."
    before any run; empty for a car with nothing due.
    """
    if car.in_time is None:
        return ""
    if car.share is None:
        return "Not known: no run yet."
    said = f"{_how_often(car, car.share, car.in_time, but_for=but_for)}, "
    said += f"ready {ready} in 8 of 10{beside}" if ready else "ready within the plan in fewer than 8 of 10"
    if more_minutes is None or car.share < MAKES_IT:
        return f"{said}."
    if not more_minutes:
        return f"{said}; there is no time for more work."
    return f"{said}; it can take {work_words(more_minutes)} more work."


def outlook_overnight(car: VehicleOdds, *, but_for: bool = False) -> str:
    """ "Makes it: in time in 912 of 1,000 runs, with its work overnight." `but_for` and empty as `outlook`."""
    if car.in_time is None:
        return ""
    if car.share is None:
        return "Not known: no run yet."
    return f"{_how_often(car, car.share, car.in_time, but_for=but_for)}, with its work overnight."


def _how_often(car: VehicleOdds, share: float, in_time: int, *, but_for: bool) -> str:
    verb = verdict(share)
    if but_for and share >= MAKES_IT:
        verb = f"its work {verb}"
    return f"{verb[0].upper()}{verb[1:]}: in time in {counted(in_time, car.runs)}"


def beside_the_plan(planned: str) -> str:
    """What follows "ready Thu 20:30 in 8 of 10" where the plan has it ready on another day.

    On an earlier one where work may take longer, on a later one where planning again at each session saves time.
    """
    return f" (by the plan {planned})"

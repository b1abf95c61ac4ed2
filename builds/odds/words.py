"""What the odds say in words; moments are left to whoever knows the garage's clock."""

from __future__ import annotations

import math

from builds.odds.answer import JobOdds, VehicleOdds
from garage.engine.words import work_words


def in_tens(count: int, runs: int) -> str:
    """A share as people say it: "8 times out of 10"; never 10 out of 10 or none unless it is all or none.

    ValueError without runs or for a count beyond them.
    """
    if not 0 <= count <= runs or not runs:
        raise ValueError("A count must lie between 0 and the number of runs, and runs be there.")
    if count in (0, runs):
        return counted(count, runs)
    tenths = math.floor(10 * count / runs + 0.5)
    if tenths == 10:
        return "more than 9 times out of 10"
    return f"{times(tenths)} out of 10" if tenths else "less than once in 10"


def percent(count: int, runs: int) -> int:
    """The share in whole per cent; 0 and 100 only when it is none and all."""
    if count in (0, runs):
        return 100 if count else 0
    return min(99, max(1, math.floor(100 * count / runs + 0.5)))


def in_time(car: VehicleOdds) -> str:
    """ "Ready in time 8 times out of 10 (82 %, 79 to 85 as far as so many can tell)."

    The band is rounded outwards. Empty for a car that has nothing due.
    """
    if car.in_time is None or car.band is None:
        return ""
    if not car.runs:
        return "Not worked out yet."
    low, high = math.floor(100 * car.band[0]), math.ceil(100 * car.band[1])
    return (
        f"Ready in time {in_tens(car.in_time, car.runs)} ({percent(car.in_time, car.runs)} %, "
        f"{low} to {high} as far as so many can tell)."
    )


def held_up(job: JobOdds, car: str) -> str:
    """ "Held Heron up 6 times out of 10.", of the car whose name that is; empty before any run."""
    return f"Held {car} up {in_tens(job.held_up, job.runs)}." if job.runs else ""


MAKES_IT, WILL_NOT = 0.8, 0.2
"""Shares of the runs from which a car makes its event, and below which it will not."""
TELLING = 20
"""So many runs, at the least, tell one from the other; fewer are no word for a car."""


def band(car: VehicleOdds) -> str:
    """ "79 to 85 % as far as so many can tell.", rounded outwards; empty without a due slot or runs."""
    if car.band is None or not car.runs:
        return ""
    return f"{math.floor(100 * car.band[0])} to {math.ceil(100 * car.band[1])} % as far as so many can tell."


def verdict(share: float) -> str:
    """ "makes it" from 8 out of 10 on, "will not make it" below 2 out of 10, else "touch and go"."""
    if share >= MAKES_IT:
        return "makes it"
    return "will not make it" if share < WILL_NOT else "touch and go"


def counted(count: int, runs: int) -> str:
    """ "69 times out of 77", "1,000 times out of 1,000", "not once in 1,000"."""
    return f"{times(count)} out of {runs:,}" if count else f"not once in {runs:,}"


def times(count: int) -> str:
    """ "once", "40 times"."""
    return "once" if count == 1 else f"{count:,} times"


def outlook(
    car: VehicleOdds, ready: str | None, more_minutes: int | None, *, beside: str = "", but_for: bool = False
) -> str:
    """What becomes of it: "Makes it: in time 9 times out of 10, and ...; there is time for 3 h more work."

    `ready` writes the moment of `car.ready_by()`; no day is said where that is None, for then it is ready at all less
    than 8 times out of 10. `beside` is what `beside_the_plan` says of it; `more_minutes` is how long one more job at
    the end may be, None when the plan has it late as it is, and no matter to a car that does not make it; `but_for`
    when something else than its work stands in the way: then a good word is its work's. "Not known: not worked out
    yet." before any run; empty for a car with nothing due.
    """
    if car.in_time is None:
        return ""
    if car.share is None:
        return "Not known: not worked out yet."
    said = _how_often(car, car.share, car.in_time, but_for=but_for)
    said += f", and 8 times out of 10 ready by {ready}{beside}" if ready else ""
    if more_minutes is None or car.share < MAKES_IT:
        return f"{said}."
    if not more_minutes:
        return f"{said}; there is no time for more work."
    return f"{said}; there is time for {work_words(more_minutes)} more work."


def outlook_overnight(car: VehicleOdds, *, but_for: bool = False) -> str:
    """ "Makes it: in time 912 times out of 1,000, with its work overnight." `but_for` and empty as `outlook`."""
    if car.in_time is None:
        return ""
    if car.share is None:
        return "Not known: not worked out yet."
    return f"{_how_often(car, car.share, car.in_time, but_for=but_for)}, with its work overnight."


def _how_often(car: VehicleOdds, share: float, in_time: int, *, but_for: bool) -> str:
    verb = verdict(share)
    if but_for and share >= MAKES_IT:
        verb = f"its work {verb}"
    return f"{verb[0].upper()}{verb[1:]}: in time {counted(in_time, car.runs)}"


def beside_the_plan(planned: str) -> str:
    """What follows "8 times out of 10 ready by Thu 20:30" where the plan has it ready on another day.

    On an earlier one where work may take longer, on a later one where planning again at each session saves time.
    """
    return f" (by the plan {planned})"

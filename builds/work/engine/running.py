"""That a car ran at an event, and the first run since something was measured or looked at."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Run:
    """A car's running at an event, and the moment (aware) from which it counts.

    `told` when somebody wrote down that it ran; else nobody has said whether it did, and it counts
    from the event's end. `runs` is how many the event gives each car.
    """

    event: str
    since: datetime
    told: bool
    runs: int = 0


def run_since(moment: datetime, runs: Iterable[Run]) -> Run | None:
    """The first run that counts from later than `moment` (aware); None while the car has not run.

    What was measured or looked at in the very moment was so after it. Of two at one moment the one
    that is told. Source: nuts and jam nuts are looked at again after the first session; common
    practice, no source.
    """
    later = [run for run in runs if run.since > moment]
    return min(later, key=lambda run: (run.since, not run.told), default=None)

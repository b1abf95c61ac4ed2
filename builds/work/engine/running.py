"""That a car ran, at an event or in a job, and the first run since something was measured or looked at."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Run:
    """A car's running at an event, and the moment (aware) from which it counts.

    `told` when somebody wrote down that it ran; else nobody has said whether it did, and it counts
    from the event's end. `until` is when the event was over: from its first session on the car runs again and
    again; None while it is not over. `runs` is how many the event gives each car. Of a car driven in a job
    `job` is its id, `event` the job's title and `begun` when hands last went to it, if anybody started it.
    """

    event: str
    since: datetime
    told: bool
    runs: int = 0
    until: datetime | None = None
    job: int = 0
    begun: datetime | None = None

    @property
    def last(self) -> datetime:
        """When it ran last, as far as that is over."""
        return max(self.since, self.until or self.since)

    @property
    def where(self) -> str:
        """`at Kiln Lane`, `in “Shake-down”`."""
        return f"in “{self.event}”" if self.job else f"at {self.event}"

    def after(self, moment: datetime) -> "Run | None":
        """As it counts for what was done at a moment: from its beginning, or for what was done in it from its end."""
        if self.since > moment:
            return self
        return replace(self, since=self.last) if self.last > moment else None


def run_since(moment: datetime, runs: Iterable[Run]) -> Run | None:
    """The first run that counts from later than `moment` (aware); None while the car has not run.

    What was measured or looked at in the very moment was so after it. Of two at one moment the one
    that is told. Source: nuts and jam nuts are looked at again after the first session; common
    practice, no source.
    """
    later = [counted for run in runs if (counted := run.after(moment))]
    return min(later, key=lambda run: (run.since, not run.told), default=None)

"""Why a job cannot be begun yet, in one sentence: another has to be done first, or a wait still runs."""

from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo

from builds.work.engine.state_words import LOOKED_FOR, STATE_WORDS
from garage.engine.moments import clock_words

# Stands for a cure that is not done in all the time that is looked ahead: it is too cold.
NOT_IN_SIGHT = datetime(9000, 1, 1, tzinfo=UTC)
WARMER = "when it is warmer"


def ready_words(ready: datetime, at: datetime, zone: tzinfo) -> str:
    """`ready Wed 06:30`, by the clock of that zone; both moments aware."""
    return f"ready {WARMER if ready == NOT_IN_SIGHT else clock_words(ready, at, zone)}"


@dataclass(frozen=True, slots=True)
class NotOver:
    """The job before (its title), and the state (slug) that it is in; `looked_for` when it is done but for a look."""

    before: str
    state: str
    looked_for: bool = False

    @property
    def sentence(self) -> str:
        if self.looked_for:
            return f"“{self.before}” has to be looked at first: it is {LOOKED_FOR}."
        return f"“{self.before}” has to be done first: it is {STATE_WORDS[self.state]}."


@dataclass(frozen=True, slots=True)
class StillRuns:
    """A wait behind the job before (its title), seen `at` a moment in a zone; `why` may be empty."""

    before: str
    why: str
    ready_at: datetime
    at: datetime
    zone: tzinfo

    @property
    def sentence(self) -> str:
        why = self.why or f"the wait after “{self.before}” runs"
        return f"{why[0].upper()}{why[1:]}: {ready_words(self.ready_at, self.at, self.zone)}."


Block = NotOver | StillRuns

"""A plan as it is kept, in the garage's own time."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Any, Protocol

from builds.plan.engine.kept_odds import KeptOdds, odds_from
from builds.plan.engine.timed_plan import TimedPlan


class PlanRow(Protocol):
    """What keeps a plan: what it was made from, when, its odds and the last days of parts once they are found."""

    pk: int
    made_at: datetime
    made_from: Mapping[str, Any]
    session_at: datetime | None
    odds: dict[str, Any] | None
    last_days: dict[str, Any] | None


@dataclass(frozen=True)
class Stored(TimedPlan):
    """A plan with the row that keeps it."""

    row: PlanRow

    @cached_property
    def odds(self) -> KeptOdds | None:
        """None until they are found."""
        return odds_from(self.row.odds) if self.row.odds else None

    @property
    def as_of(self) -> datetime:
        """The moment of the garage that was planned; `row.made_at` is later for what a search found."""
        return datetime.fromisoformat(self.row.made_from["at"])

    @property
    def promised_at(self) -> datetime | None:
        """When the session began under which the plan stood whose promises this one keeps; None before the first."""
        promised_at = self.row.made_from.get("promised_at")
        return datetime.fromisoformat(promised_at) if promised_at else None

    def gone_by(self, at: datetime) -> datetime | None:
        """When the session began since which people go by it; None where none has."""
        begins = self.row.session_at
        return begins if begins and begins <= at else None

"""Plans as they are kept: the planner's own problem and answer, in the garage's own time."""

from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from zoneinfo import ZoneInfo

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.kept_odds import KeptOdds, odds_from
from builds.plan.engine.packed import answer_from, unpacked
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.models import Plan
from garage.models import Garage
from garage.remembered import notes_of, remembered


@dataclass(frozen=True)
class Stored(TimedPlan):
    """A plan with the row that keeps it."""

    row: Plan

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
        """When the plan stood whose promises this one keeps where it can."""
        promised_at = self.row.made_from.get("promised_at")
        return datetime.fromisoformat(promised_at) if promised_at else None

    def stood_at(self, at: datetime) -> datetime:
        """When people last had reason to look at it: as the session began, or when it was made."""
        begins = self.row.session_at
        return begins if begins and begins <= at else self.row.made_at


def read(row: Plan, garage: Garage) -> Stored:
    problem, answer = remembered(garage, (Plan, row.pk), lambda: (unpacked(row.problem), answer_from(row.answer)))
    clock = PlanClock.of(problem.start or "", ZoneInfo(garage.time_zone))
    return Stored(problem, answer, clock, row)


def promised(garage: Garage, at: datetime) -> Stored | None:
    """The plan that stood when the last session began: what people go by. One query."""
    row = Plan.objects.in_garage(garage).stood(at).first()
    return read(row, garage) if row else None


def shown(garage: Garage) -> Stored | None:
    """The plan on the wall; one query, and one more for a plan that is not remembered."""
    rows, notes = Plan.objects.in_garage(garage).shown(), notes_of(garage)
    row = rows.first() if notes is None else rows.defer("problem", "answer").first()
    if notes is not None and row and (Plan, row.pk) not in notes:
        row = rows.first()  # whole: what is left for later may be gone by then, with the plan
    return read(row, garage) if row else None

"""Until when parts may come, as it is kept beside the plan on the wall."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from builds.needs.facts.wants import Wants
from builds.plan.engine.stored import Stored
from builds.plan.models import Plan
from garage.models import Garage


@dataclass(frozen=True)
class LastDays:
    """By job (pk) the last of the `days` on which its parts may come, without those that no car waits for, or that
    are late whatever comes. It was worked out for those `asked`; None without a plan.
    """

    days: Mapping[int, date] = field(default_factory=dict)
    asked: frozenset[int] | None = None

    def yet_to_find(self, wants: Wants) -> frozenset[int]:
        """Jobs (pk) that wait for what no shelf has whole, and for which nobody has worked it out yet."""
        return frozenset() if self.asked is None else wants.waiting - self.asked


def last_days(garage: Garage) -> LastDays:
    """One query."""
    kept = list(Plan.objects.in_garage(garage).shown().values_list("last_days", flat=True)[:1])
    return _read(kept[0]) if kept else LastDays()


def kept_beside(plan: Stored | None) -> LastDays:
    """As `last_days`, of a plan that was read already."""
    return LastDays() if plan is None else _read(plan.row.last_days)


def _read(kept: Mapping[str, Any] | None) -> LastDays:
    if kept is None:
        return LastDays(asked=frozenset())
    days = {int(job): date.fromisoformat(day) for job, day in kept["days"].items()}
    return LastDays(days, frozenset(kept["asked"]))

"""Until when parts may come, as it is kept beside the plan on the wall."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from builds.plan.models import Plan
from garage.models import Garage


def last_days(garage: Garage) -> dict[int, date]:
    """By job (pk) the last day on which its parts may come; without those that no car waits for, that are
    late whatever comes, or that nobody has worked out yet. One query.
    """
    kept = Plan.objects.in_garage(garage).shown().values_list("last_days", flat=True).first()
    return days_of(kept) if kept else {}


def days_of(kept: Mapping[str, Any]) -> dict[int, date]:
    return {int(job): date.fromisoformat(day) for job, day in kept["days"].items()}

"""How much open work each car has, without the rest of what is known of it."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime

from builds.work.engine.work_left import left_after
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.models import Vehicle

ROW = ("pk", "vehicle_id", "likely_minutes", "left_minutes", "spans__state", "spans__from_at", "spans__until_at")


def minutes_left(cars: Iterable[Vehicle], at: datetime) -> dict[int, int]:
    """By the pk of each car that has work to do; what is done and waits for a look is none. One query."""
    jobs: dict[tuple[int, int, int, int | None], list[tuple[datetime, datetime | None]]] = defaultdict(list)
    for *job, state, since, until in Job.objects.filter(vehicle__in=cars, finished_at=None).open().values_list(*ROW):
        worked = jobs[tuple(job)]
        if state == State.IN_HAND:
            worked.append((since, until))
    left: dict[int, int] = defaultdict(int)
    for (_, car, likely, by_hand), worked in jobs.items():
        left[car] += left_after(worked, at, likely, by_hand)
    return dict(left)

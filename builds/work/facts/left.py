"""How much open work each car has, without the rest of what is known of it."""

from collections import defaultdict
from datetime import datetime

from builds.work.engine.work_left import left_after
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.models import Garage
from garage.remembered import remembered

ROW = ("pk", "vehicle_id", "likely_minutes", "left_minutes", "spans__state", "spans__from_at", "spans__until_at")
# Of a job its pk, its car, its likely minutes and those left where somebody said so; when hands were on it.
JobRow = tuple[int, int, int, int | None]
Worked = list[tuple[datetime, datetime | None]]


def minutes_left(garage: Garage, at: datetime) -> dict[int, int]:
    """By the pk of each car that has work to do; what is done and waits for a look is none. One query, or none where
    it is remembered.
    """
    left: dict[int, int] = defaultdict(int)
    for (_, car, likely, by_hand), worked in remembered(garage, "work_left", lambda: _jobs(garage)).items():
        left[car] += left_after(worked, at, likely, by_hand)
    return dict(left)


def _jobs(garage: Garage) -> dict[JobRow, Worked]:
    jobs: dict[JobRow, Worked] = defaultdict(list)
    rows = Job.objects.in_garage(garage).filter(finished_at=None).open().values_list(*ROW)
    for pk, car, likely, by_hand, state, since, until in rows:
        worked = jobs[pk, car, likely, by_hand]
        if state == State.IN_HAND:
            worked.append((since, until))
    return dict(jobs)

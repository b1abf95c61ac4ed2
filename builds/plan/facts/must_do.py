"""The open work that a car must have done before it runs: all that is not merely wanted."""

from collections import defaultdict
from collections.abc import Iterable

from builds.plan.engine.ids import id_of
from builds.plan.engine.outcome import MustDoJob
from builds.work.models.job import Job


def must_do(open_jobs: Iterable[Job]) -> dict[int, list[MustDoJob]]:
    """The safety and needed ones of these jobs by vehicle (pk), each with its night (`with_night`)."""
    by_car: dict[int, list[MustDoJob]] = defaultdict(list)
    for job in open_jobs:
        if job.must_do:
            due = job.night.due_at if job.night else None
            by_car[job.vehicle_id].append(MustDoJob(id_of("job", job.pk), job.title, due))
    return by_car

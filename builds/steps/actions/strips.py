"""A job that strips a car or puts it back stays on that car, and is not dropped while the car is stripped."""

from builds.work.models.job import Job
from builds.work.models.link import StationHold
from garage.actions.refused import Refused


def refuse_move(job: Job) -> None:
    """The first and the last job of a strip are on one car."""
    kept = StationHold.objects.of(job).select_related("station", "first", "last").first()
    if kept:
        raise Refused(
            f"{job.vehicle} keeps {kept.station} from “{kept.first}” until “{kept.last}”: "
            f"“{job}” stays on {job.vehicle}.",
            "vehicle",
        )


def refuse_drop(job: Job) -> None:
    """What stripped a car has happened, and what puts it back has to, unless the owner frees its place."""
    kept = StationHold.objects.of(job).keeping().stripped().select_related("station", "first", "last").first()
    if kept:
        raise Refused(
            f"{job.vehicle} is stripped in {kept.station} until “{kept.last}” is done: “{job}” cannot be "
            f"dropped. Put it down, or have the owner free {kept.station} with a reason."
        )

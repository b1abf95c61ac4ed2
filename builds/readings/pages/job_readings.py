"""What a job does to the readings of its car: those that it voids, and those that it takes."""

from dataclasses import dataclass

from builds.readings.engine import READINGS, in_measuring_order, names_of
from builds.readings.engine.kinds_of_work import KINDS, voided_by
from builds.readings.facts.kinds import kinds_of
from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES
from garage.models import Garage


@dataclass(frozen=True)
class JobReadings:
    """`measures` are key and label; `voids` is one list in words; `open` while it is to be done."""

    measures: tuple[tuple[str, str], ...]
    voids: str
    open: bool


def job_readings(job: Job, garage: Garage) -> JobReadings:
    """One query."""
    kinds = kinds_of(garage)
    void = in_measuring_order(voided_by(kind for kind in job.kinds if kind in KINDS))
    names = names_of(kinds[slug] for slug in void if slug in READINGS)
    return JobReadings(
        tuple((key, kinds[key].label) for key in job.measures if key in kinds),
        names,
        job.state in OPEN_STATES,
    )

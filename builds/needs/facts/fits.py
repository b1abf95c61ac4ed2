"""How parts answer what the jobs want them to fit."""

from dataclasses import dataclass

from django.db.models import Q

from builds.steps.facts.looks import for_safety
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.states import OPEN_STATES
from garage.engine.systems import SAFETY_SYSTEMS
from garage.models import Vehicle
from parts.engine.fit import FitVerdict, fits_all, read_all
from parts.models import Part


@dataclass(frozen=True)
class JobFit:
    """How a part answers one job's want of it."""

    need: Need
    verdict: FitVerdict

    @property
    def job(self) -> Job:
        return self.need.job


def answer_of(need: Need, part: Part) -> FitVerdict | None:
    """How a part answers a need, None when nobody said what it must fit."""
    return fits_all(need.must_fit, read_all(part.interfaces)) if need.fit else None


def worst_answer(part: Part, job: Job | None, car: Vehicle | None) -> JobFit | None:
    """How a part answers the job's needs of it and those of every open job on the car.

    The worst of them, None when none says what it must fit; one query. Whether a need was got
    already or another job is named does not matter: a thread is as it is.
    """
    asked = Q(job=job) | Q(job__vehicle=car, job__state__in=OPEN_STATES)
    answers = [
        JobFit(need, answer)
        for need in Need.objects.filter(asked, part=part).with_ends()
        if (answer := answer_of(need, part))
    ]
    return max(answers, key=lambda fit: fit.verdict.rank, default=None)


def is_safety(job: Job, part: Part) -> bool:
    """Whether the job or the part touches what somebody's life hangs on."""
    return for_safety(job) or not SAFETY_SYSTEMS.isdisjoint(part.touches)


def job_fits(part: Part) -> tuple[JobFit, ...]:
    """How it answers each open job that wants it and says what it must fit; one query."""
    rows = Need.objects.in_garage(part.garage_id).open().filter(part=part).with_ends()
    return tuple(JobFit(need, answer) for need in rows if (answer := answer_of(need, part)))

"""What guests of a shared page may say: comments, and that a job is done; and what was said so far."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.share.pages.shared import SharedCar
from builds.share.pages.shown import cars_of
from builds.steps.actions.guest_ticks import refuse_tick
from builds.work.models.comment import JobComment
from builds.work.models.guest_tick import GuestTick
from builds.work.models.job import Job
from garage.models import Share, Vehicle


@dataclass(frozen=True)
class TickLine:
    """A job (pk) that a guest may say is done; `said_by` once somebody did, until it is answered."""

    pk: int
    title: str
    said_by: str


@dataclass(frozen=True)
class SaidLine:
    who: str
    title: str
    text: str
    at: datetime


def label_of(job: Job, share: Share) -> str:
    return f"{job.title}, {job.vehicle.name}" if share.several else job.title


def tickable(share: Share, cars: Iterable[Vehicle]) -> dict[int, str]:
    """Jobs (pk) of these cars that a link may let be ticked, with their titles; none for safety."""
    jobs = Job.objects.filter(vehicle__in=list(cars)).open().select_related("vehicle").order_by("pk")
    return {job.pk: label_of(job, share) for job in jobs if refuse_tick(job) is None}


def ticks_of(share: Share) -> list[TickLine]:
    """Those that its maker chose and that are still to do."""
    if not share.may_tick:
        return []
    jobs = {pk: title for pk, title in tickable(share, cars_of(share)).items() if pk in share.may_tick}
    said = dict(GuestTick.objects.waiting().filter(job__in=jobs).values_list("job", "name"))
    return [TickLine(pk, title, said.get(pk, "")) for pk, title in jobs.items()]


def tick_job(share: Share, pk: int) -> Job | None:
    """The job if it may be ticked on this page."""
    return Job.objects.get(pk=pk) if any(line.pk == pk for line in ticks_of(share)) else None


def jobs_said_of(share: Share, cars: Iterable[SharedCar]) -> dict[int, str]:
    """The jobs that the page shows, to be commented on, with their titles."""
    if not share.may_comment:
        return {}
    return {job.pk: f"{job.title}, {car.name}" if share.several else job.title for car in cars for job in car.jobs}


def job_said_of(pk: int) -> Job:
    """One of `jobs_said_of`."""
    return Job.objects.get(pk=pk)


def said_on(share: Share) -> list[SaidLine]:
    """What guests said by this link alone, the oldest first."""
    if not share.may_comment:
        return []
    rows = JobComment.objects.filter(share=share).select_related("job__vehicle")
    return [SaidLine(said.guest, label_of(said.job, share), said.text, said.at) for said in rows]

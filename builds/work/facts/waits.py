"""Links as waits, and what came after a job."""

from collections.abc import Collection, Mapping

from builds.work.engine.working_order import Wait, reached_from, without
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.states import FINISHED_STATES, State

# The columns of a link as `Wait` takes them.
AS_WAIT = ("before_id", "after_id", "wait_minutes", "why", "cure", "cure_stage")


def wait_of(link: Link) -> Wait:
    return Wait(link.before_id, link.after_id, link.wait_minutes, link.why, link.cure, link.cure_stage)


def waits_of(links: Collection[Link]) -> list[Wait]:
    """Links (ends attached) as they bind."""
    ends = {job.pk: job for link in links for job in (link.before, link.after)}
    return binding([wait_of(link) for link in links], ends)


def binding(waits: list[Wait], jobs: Mapping[int, Job]) -> list[Wait]:
    """As they bind between these `jobs`: a dropped one passes its order on to what follows."""
    dropped = {pk for pk, job in jobs.items() if job.state == State.DROPPED}
    return without(waits, dropped) if dropped else waits


def following(job: Job) -> list[Job]:
    """Jobs behind this one, however far along the links; two queries."""
    links = Link.objects.in_garage(job.vehicle.garage_id).standing().values_list("before_id", "after_id")
    behind = list(reached_from(job.pk, list(links)))
    jobs = Job.objects.in_bulk(behind)
    return [jobs[pk] for pk in behind]


def finished_after(job: Job) -> list[Job]:
    """Those behind this one that are finished already."""
    return [after for after in following(job) if after.state in FINISHED_STATES]

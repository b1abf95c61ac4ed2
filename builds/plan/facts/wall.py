"""The plan on the wall beside the garage as it is now."""

from dataclasses import dataclass

from builds.plan.engine.ids import pk_of
from builds.plan.engine.sessions import PlannedCure, Session, sessions
from builds.plan.facts.cures import cures
from builds.plan.facts.rows import PlanRows
from builds.plan.facts.stored import Stored
from builds.work.models.job import Job
from garage.models import Garage


@dataclass(frozen=True)
class Wall:
    """`jobs` are those of the plan as they are now, by pk, finished ones included, cars attached."""

    plan: Stored
    rows: PlanRows
    jobs: dict[int, Job]
    sessions: list[Session]
    cures: list[PlannedCure]


def wall_of(plan: Stored, rows: PlanRows, garage: Garage) -> Wall:
    """One query, for the jobs that are over."""
    open_jobs = rows.work.jobs
    planned = {pk_of(job) for job in plan.jobs} | {wait.before for wait in rows.work.links}
    over = Job.objects.in_garage(garage).filter(pk__in=planned - open_jobs.keys()).select_related("vehicle")
    jobs = open_jobs | {job.pk: job for job in over}
    return Wall(plan, rows, jobs, sessions(plan), cures(plan, rows))

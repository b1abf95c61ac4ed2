"""The plan on the wall beside the garage as it is now."""

from collections.abc import Iterator
from dataclasses import dataclass

from builds.plan.engine.ids import id_of, pk_of
from builds.plan.engine.sessions import PlannedCure, Session, cures_between, sessions
from builds.plan.engine.stored import Stored
from builds.plan.facts.rows import PlanRows
from builds.work.models.job import Job
from garage.models import Garage


@dataclass(frozen=True)
class Wall:
    """`jobs` are those of the plan as they are now, by pk, finished ones included, cars attached.

    `cures` are the waits between planned jobs and those behind finished work, in order of start.
    """

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
    return Wall(plan, rows, jobs, sessions(plan), _cures(plan, rows))


def _cures(plan: Stored, rows: PlanRows) -> list[PlannedCure]:
    """Each once."""
    once: dict[tuple[str, int], PlannedCure] = {}
    for cure in cures_between(plan):
        once.setdefault((cure.before, cure.ready), cure)
    for cure in _running(plan, rows):
        once[cure.before, cure.ready] = cure
    return sorted(once.values(), key=lambda cure: (cure.start, cure.ready))


def _running(plan: Stored, rows: PlanRows) -> Iterator[PlannedCure]:
    """Behind finished work, for jobs that are still open."""
    for pk in rows.work.jobs:
        for wait in rows.work.waits.get(pk, ()):
            if wait.before in rows.work.jobs:
                continue
            done = rows.work.before[wait.before]
            moment = rows.work.times.ready_at(wait, done)
            if moment and moment > rows.at:
                start = plan.clock.last_until(done.finished_at)
                ready = min(plan.clock.first_from(moment), plan.problem.slots + 1)
                span = (start, ready, wait.why or "wait", done.finished_at, moment)
                yield PlannedCure(id_of("job", done.pk), id_of("job", pk), *span)

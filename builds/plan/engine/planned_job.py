"""What the plan makes of a job that the verdict knows."""

from datetime import datetime

from builds.plan.engine.ids import id_of
from builds.plan.engine.timed_plan import TimedPlan
from builds.verdict.engine.on_plan import IN_TIME, PlannedJob


def planned_job(
    plan: TimedPlan, job: int, due: datetime, at: datetime, *, measures: tuple[str, ...], kinds: tuple[str, ...]
) -> PlannedJob:
    """Of the unfinished job with that pk, whose car leaves at `due`, seen from `at` (aware).

    A job that the plan had over before `at`, and is not, is behind it. `measures` are the readings
    (slugs) that the job takes, `kinds` what is done in it (slugs).
    """
    job_id = id_of("job", job)
    if job_id in plan.unplaced:
        return PlannedJob("unplaced")
    placed = plan.placed.get(job_id)
    if placed is None:
        return PlannedJob("new")
    end, when = plan.clock.moment(placed.end), plan.clock.words(placed.end)
    if end > due:
        return PlannedJob("late", when)
    return PlannedJob("behind" if end <= at else IN_TIME, when, measures, kinds, placed.end)

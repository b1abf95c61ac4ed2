"""The three figures of open jobs as the odds take them: what is left to do."""

from collections.abc import Mapping

from builds.odds.estimates import Figures, left_of, scaled, spread
from builds.odds.log import Factor, corrected
from builds.plan.engine.ids import id_of
from builds.work.engine.open_work import Work
from builds.work.models.job import Job


def figures(work: Work, factors: Mapping[str, Factor]) -> dict[str, Figures]:
    """Of every open job, by its id in a problem; `factors` are what the log says and the owner lets count."""
    return {id_of("job", pk): figures_of(job, work, factors) for pk, job in work.jobs.items()}


def figures_of(job: Job, work: Work, factors: Mapping[str, Factor]) -> Figures:
    """What is left of a job's three figures; what was said to be left by hand counts first.

    A job of which only the likely figure was written has the usual spread; at one that waits for a look nothing is
    left to do.
    """
    if job.finished_at is not None:
        return 0.0, 0.0, 0.0
    written = spread((job.low_minutes, job.likely_minutes, job.high_minutes))
    if job.left_minutes is not None and job.likely_minutes:
        return scaled(written, max(work.left(job.pk), 1) / job.likely_minutes)
    return left_of(corrected(written, job.systems, factors), work.spent(job.pk))

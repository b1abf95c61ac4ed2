"""What the log of finished jobs says of the estimates, by the systems that jobs touch."""

from collections import defaultdict

from builds.odds.log import Factor, FinishedJob, factors, shared_spread
from builds.work.engine.work_left import minutes_between
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES
from garage.models import Garage
from garage.remembered import remembered

MOST_JOBS = 1000  # the latest ones: habits change


def worked(garage: Garage) -> list[FinishedJob]:
    """Finished jobs with the time they were in hand; two queries, none where they are remembered."""
    return remembered(garage, "worked", lambda: _worked(garage))


def _worked(garage: Garage) -> list[FinishedJob]:
    jobs = list(
        Job.objects.in_garage(garage)
        .filter(state__in=FINISHED_STATES)
        .order_by("-finished_at", "-pk")
        .values_list("pk", "systems", "likely_minutes", "finished_at")[:MOST_JOBS]
    )
    spans: dict[int, list[Span]] = defaultdict(list)
    for span in Span.objects.worked().filter(job__in=[pk for pk, *_ in jobs]):
        spans[span.job_id].append(span)
    return [
        FinishedJob(
            tuple(systems),
            likely,
            minutes_between([(span.from_at, span.until_at) for span in spans[pk]], finished),
        )
        for pk, systems, likely, finished in jobs
        if pk in spans and finished
    ]


def log_factors(garage: Garage) -> dict[str, Factor]:
    """By system, whether or not the owner lets them count."""
    return factors(worked(garage))


def factors_that_count(garage: Garage) -> dict[str, Factor]:
    """Nothing unless the owner has switched them on."""
    return log_factors(garage) if garage.log_counts else {}


def spread_that_all_share(garage: Garage) -> float:
    """How far off all estimates may be at once, by the log; whether or not its factors count."""
    return shared_spread(worked(garage))

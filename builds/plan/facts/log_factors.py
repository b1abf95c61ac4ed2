"""What the log of finished jobs says of the estimates, by the systems that jobs touch."""

from dataclasses import dataclass

from builds.odds.log import Factor, Worked, factors
from builds.work.engine.work_left import minutes_between
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES
from garage.engine.systems import SYSTEM_LABELS
from garage.models import Garage

MOST_JOBS = 1000  # the latest ones: habits change


def worked(garage: Garage) -> list[Worked]:
    """Finished jobs with the time they were in hand; two queries."""
    jobs = list(
        Job.objects.in_garage(garage)
        .filter(state__in=FINISHED_STATES)
        .order_by("-finished_at", "-pk")
        .values_list("pk", "systems", "likely_minutes", "finished_at")[:MOST_JOBS]
    )
    spans: dict[int, list[Span]] = {}
    for span in Span.objects.worked().filter(job__in=[pk for pk, *_ in jobs]):
        spans.setdefault(span.job_id, []).append(span)
    return [
        Worked(
            tuple(systems),
            likely,
            minutes_between([(row.from_at, row.until_at) for row in spans[pk]], finished),
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


@dataclass(frozen=True)
class LogSays:
    """One system: what the log says of it, and how much of it there is."""

    label: str
    sentence: str
    jobs: int


def log_says(garage: Garage) -> list[LogSays]:
    """Those furthest from what was written down first."""
    found = sorted(log_factors(garage).values(), key=lambda row: -abs(row.times - 1))
    return [
        LogSays(
            SYSTEM_LABELS[row.kind],
            row.sentence(SYSTEM_LABELS[row.kind].lower()),
            row.jobs,
        )
        for row in found
    ]

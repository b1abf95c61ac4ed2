"""What was worked out for a job: sums kept on its car that its measuring and its work are held against."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.sums.facts.kept import KeptStanding, newest_kept
from builds.sums.pages.kept import checks_of, void_words
from builds.work.models.job import Job
from garage.clock import zone
from garage.engine.moments import moment_words


@dataclass(frozen=True)
class JobSum:
    """`checks` are label and figure of what is to come out, `warnings` what was said loudly; of a void one neither."""

    pk: int
    name: str
    title: str
    checks: tuple[tuple[str, str], ...]
    warnings: tuple[str, ...]
    void: str
    kept: str

    @property
    def words(self) -> str:
        """In one sentence, as a hold point asks for it."""
        return f"{self.title}, {self.kept}: {'; '.join(f'{label} {figure}' for label, figure in self.checks)}."


def sums_of_jobs(jobs: Iterable[Job], at: datetime) -> dict[int, tuple[JobSum, ...]]:
    """By job (pk); as many queries for one as for fifty."""
    known = list(jobs)
    kept = newest_kept(list({job.vehicle for job in known}), at)
    return {job.pk: tuple(_sum(one, job, at) for one in kept[job.vehicle_id] if _helps(one, job)) for job in known}


def _helps(one: KeptStanding, job: Job) -> bool:
    """A sum of what the job measures, or whose work it does. To a job that only takes it apart it is no target."""
    offered = one.asked.offered
    return not (set(offered.readings).isdisjoint(job.measures) and set(offered.kinds).isdisjoint(job.kinds))


def _sum(one: KeptStanding, job: Job, at: datetime) -> JobSum:
    void = one.void_for(job.pk)
    return JobSum(
        one.kept.pk,
        one.kept.name,
        one.asked.title,
        () if void else tuple(checks_of(one)),
        () if void else tuple(one.kept.warnings),
        void_words(void, at),
        f"worked out by {one.kept.by.name}, {moment_words(one.kept.at, zone(), at)}",
    )

"""What was worked out for a job: sums kept on its car that its measuring and its work are held against."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.bench.frame.say import answer_said
from builds.bench.frame.sums import Worked
from builds.sums.facts.again import WorkedAgain, worked_again
from builds.sums.facts.kept import KeptStanding, newest_kept
from builds.sums.pages.kept import checks_of, void_words
from builds.work.models.job import Job
from garage.clock import zone
from garage.engine.moments import moment_words


@dataclass(frozen=True)
class JobSum:
    """`checks` are label and figure of what is to come out, `warnings` what was said loudly; of a void one neither.

    `kept` says by whom and when it was worked out, or since which reading it comes out so.
    """

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
    """By job (pk); as many queries for one as for fifty that are held against the same sums."""
    known = list(jobs)
    kept = newest_kept(list({job.vehicle for job in known}), at)
    helping = {job.pk: [one for one in kept[job.vehicle_id] if _helps(one, job)] for job in known}
    cars = {one.kept.pk: job.vehicle for job in known for one in helping[job.pk]}
    again = {
        one.kept.pk: worked_again(one, cars[one.kept.pk], at)
        for mine in kept.values()
        for one in mine
        if one.kept.pk in cars
    }
    return {job.pk: tuple(_sum(one, job, again[one.kept.pk], at) for one in helping[job.pk]) for job in known}


def _helps(one: KeptStanding, job: Job) -> bool:
    """A sum of what the job measures, or whose work it does. To a job that only takes it apart it is no target."""
    offered = one.asked.offered
    return not (set(offered.readings).isdisjoint(job.measures) and set(offered.kinds).isdisjoint(job.kinds))


def _sum(one: KeptStanding, job: Job, again: WorkedAgain | None, at: datetime) -> JobSum:
    if again:
        worked, when = again.worked, moment_words(again.read_at, zone(), at)
        checks, warnings = (_checks(one, worked, job.vehicle.garage.units), worked.warnings) if worked else ((), ())
        void = "" if worked else f"From what was read {when} there is no answer: {again.why}"
        since = f"worked out again from what was read {when}"
    else:
        void = void_words(one.void_for(job.pk), at)
        checks, warnings = ((), ()) if void else (tuple(checks_of(one)), tuple(one.kept.warnings))
        since = f"worked out by {one.kept.by.name}, {moment_words(one.kept.at, zone(), at)}"
    return JobSum(one.kept.pk, one.kept.name, one.asked.title, checks, warnings, void, since)


def _checks(one: KeptStanding, worked: Worked, system: str) -> tuple[tuple[str, str], ...]:
    answers = {answer.slug: answer for answer in worked.answers}
    return tuple(
        (answers[slug].label, answer_said(answers[slug], system))
        for slug in one.asked.offered.checks
        if slug in answers
    )

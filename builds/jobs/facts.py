"""All rows that hang on a job, for its page."""

from dataclasses import dataclass
from datetime import datetime

from builds.jobs.engine.pasted import PastedList
from builds.readings.engine.kind_line import KindLine
from builds.readings.facts.amiss import amiss_in
from builds.recipes.facts import alike_on, served_on
from builds.steps.engine.looks import Eyes
from builds.steps.facts.looks import hands_known, waiting_for_look
from builds.work.engine.open_work import Work
from builds.work.engine.working_order import Wait
from builds.work.facts.room_now import JobUse, uses_of
from builds.work.facts.work import load_work, with_people
from builds.work.models.comment import JobComment
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link, StationHold
from builds.work.models.need import Need
from builds.work.models.skill_loan import SkillLoan
from builds.work.models.span import Span
from builds.work.models.states import BEGINNABLE, State
from garage.models import Membership, Vehicle


@dataclass(frozen=True)
class JobRows:
    """`work` is that of the whole garage, the rest the job's own; `people` are all hands of the garage.

    `opened` are the jobs that were found while this one was done. `workers` (pk) had their hands on
    what its hold points look at; `wants_look` when it is done and nobody else has looked at it. `amiss` is what
    was read out of order at its end.
    """

    job: Job
    work: Work
    spans: list[Span]
    points: list[HoldPoint]
    links: list[Link]
    needs: list[Need]
    stations: list[JobUse]
    kept: list[StationHold]
    opened: list[Job]
    loans: list[SkillLoan]
    comments: list[JobComment]
    people: list[Eyes]
    workers: frozenset[int]
    wants_look: bool
    amiss: tuple[KindLine, ...]

    @property
    def ahead(self) -> list[Link]:
        return [link for link in self.links if link.after_id == self.job.pk]

    @property
    def behind(self) -> list[Link]:
        return [link for link in self.links if link.before_id == self.job.pk]

    @property
    def cuts(self) -> list[Link]:
        """Links to what it would wait for that somebody cut, and is known for."""
        return [link for link in self.ahead if link.cut_at]

    @property
    def is_open(self) -> bool:
        return self.job.pk in self.work.jobs


def job_rows(job: Job, me: Membership, people: list[Eyes], at: datetime) -> JobRows:
    """A fixed number of queries, however much hangs on the job. `people` are all hands."""
    spans = list(Span.objects.filter(job=job).select_related("by__person").prefetch_related(with_people("crew")))
    return JobRows(
        job,
        load_work(me.garage, at),
        spans,
        list(HoldPoint.objects.filter(job=job).select_related("job", "signed_by__person", "written_by__person")),
        list(Link.objects.of(job).select_related("before__vehicle", "after__vehicle", "cut_by__person")),
        list(Need.objects.in_garage(me.garage).of(job).with_ends()),
        uses_of(me.garage, job),
        list(StationHold.objects.of(job).with_begun().select_related("station", "first", "last", "freed_by__person")),
        list(Job.objects.found_in(job).select_related("vehicle", "skill", "signed_by__person")),
        list(job.skill_loans.select_related("member__person", "lent_by__person")) if job.skill_id else [],
        list(JobComment.objects.filter(job=job).with_names()),
        people,
        hands_known(me.garage, [job])[job.pk],
        job.state == State.DONE and job.pk in waiting_for_look(me.garage),
        amiss_in(me.garage, [job]).get(job.pk, ()) if spans else (),
    )


def next_after(job: Job, at: datetime) -> list[Job]:
    """Jobs of the same car that can be started once this one is done, in working order.

    What waits for it waits on where a hold point stops it at its end, or something cures after it.
    """
    work = load_work(job.vehicle.garage, at)
    stops = bool(work.unsigned.get(job.pk))
    mine = [one for pk in work.order if pk != job.pk and (one := work.jobs[pk]).vehicle_id == job.vehicle_id]
    return [
        one
        for one in mine
        if one.state in BEGINNABLE and not any(_keeps(wait, job, work, stops=stops) for wait in work.waits[one.pk])
    ]


def _keeps(wait: Wait, done: Job, work: Work, *, stops: bool) -> bool:
    """Whether a job waits on although that other one is done."""
    if wait.before == done.pk:
        return stops or bool(wait.wait or wait.cure)
    return work.times.block(wait, work.before[wait.before]) is not None


def there_already(vehicle: Vehicle, pasted: PastedList) -> dict[str, Job]:
    """Of each title, in small letters, the open job of the car that is called so or does just that."""
    serving = served_on(vehicle, {job.title: job.said for job in pasted.jobs})
    called = {job.title.casefold(): job for job in Job.objects.on(vehicle).open().order_by("-pk")}
    return {title.casefold(): job for title, job in serving.items()} | called


def likely_there(vehicle: Vehicle, pasted: PastedList) -> dict[str, Job]:
    """Of each other title, in small letters, the job of the car that is likely the same work: to be asked.

    Only of lines that wait for none, and for which none waits: with those the car's own order might run in a circle.
    """
    there, ahead = there_already(vehicle, pasted), {job.after for job in pasted.jobs}
    alone = (job for job in pasted.jobs if not (job.after or job.cures or job.title in ahead))
    new = {job.title: job.said for job in alone if job.title.casefold() not in there}
    return {title.casefold(): job for title, job in alike_on(vehicle, new).items()}

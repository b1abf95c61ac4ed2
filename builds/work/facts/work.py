"""The work of a garage as it stands: open jobs, what they wait for, who is on them since when."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from django.db.models import Exists, OuterRef, Prefetch

from builds.work.engine.blocks import Block
from builds.work.engine.ranks import RANK_ORDER
from builds.work.engine.urgency import Urgency, inherited
from builds.work.engine.work_left import left_after, minutes_between
from builds.work.engine.working_order import Wait, working_order
from builds.work.facts.cure_times import CureTimes
from builds.work.facts.waits import waits_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.need import Need
from builds.work.models.span import Span
from builds.work.models.states import OVER, State
from garage.models import Garage, Membership
from garage.remembered import remembered


@dataclass(frozen=True)
class RunningCure:
    """A wait that runs now: when it is over, why, and for what."""

    ready_at: datetime
    why: str
    after: str


@dataclass(frozen=True)
class Work:
    """`jobs` are open, by pk, cars and skills attached, each with whether it `wants_parts`; every link leads to
    one of them.

    `before` has the jobs that links begin with, whatever their state; `spans` the stretches in
    which a job was worked on, oldest first; `unsigned` its hold points. `times` know when waits are over.
    """

    at: datetime
    jobs: dict[int, Job]
    before: dict[int, Job]
    links: list[Wait]
    spans: dict[int, list[Span]]
    unsigned: dict[int, list[HoldPoint]]
    times: CureTimes

    @property
    def pairs(self) -> list[tuple[int, int]]:
        return [(link.before, link.after) for link in self.links]

    @cached_property
    def urgency(self) -> dict[int, Urgency]:
        return inherited({pk: job.rank for pk, job in self.jobs.items()}, self.pairs)

    @cached_property
    def waits(self) -> dict[int, list[Wait]]:
        before: dict[int, list[Wait]] = defaultdict(list)
        for wait in self.links:
            before[wait.after].append(wait)
        return before

    @cached_property
    def order(self) -> list[int]:
        """Job pks in working order: in hand first, then as the links and the urgency have it."""
        keys = {
            pk: (job.state != State.IN_HAND, RANK_ORDER[self.urgency[pk].rank], -job.weight, pk)
            for pk, job in self.jobs.items()
        }
        return working_order(keys, self.pairs)

    @cached_property
    def curing(self) -> dict[int, RunningCure]:
        """Finished jobs (pk) behind which a wait still runs, the longest of each."""
        longest: dict[int, RunningCure] = {}
        for wait in self.links:
            before = self.before[wait.before]
            ready = self.times.ready_at(wait, before) if before.state in OVER else None
            if ready is None or ready <= self.at:
                continue
            if before.pk not in longest or longest[before.pk].ready_at < ready:
                longest[before.pk] = RunningCure(ready, wait.why, self.jobs[wait.after].title)
        return dict(sorted(longest.items(), key=lambda item: item[1].ready_at))

    def blocks(self, pk: int) -> list[Block]:
        blocks = (self.times.block(wait, self.before[wait.before]) for wait in self.waits[pk])
        return [block for block in blocks if block]

    def running(self, pk: int) -> Span | None:
        """The stretch of work that runs now, if the job is in hand."""
        spans = self.spans[pk]
        return spans[-1] if spans and spans[-1].until_at is None else None

    def crew(self, pk: int) -> list[Membership]:
        running = self.running(pk)
        return list(running.crew.all()) if running else []

    def spent(self, pk: int) -> int:
        return minutes_between(_stretches(self.spans[pk]), self.at)

    def left(self, pk: int) -> int:
        return left_of_job(self.jobs[pk], self.spans[pk], self.at)

    def urgent_from(self, pk: int) -> str:
        """Title of the job whose urgency this one carries, or nothing when it is its own."""
        source = self.urgency[pk].inherited_from
        return self.jobs[source].title if source is not None else ""


def _stretches(spans: Iterable[Span]) -> list[tuple[datetime, datetime | None]]:
    return [(span.from_at, span.until_at) for span in spans]


def left_of_job(job: Job, worked: Iterable[Span], at: datetime) -> int:
    """Minutes left of an open job, from its stretches of work."""
    return left_after(_stretches(worked), at, job.likely_minutes, job.left_minutes)


def with_people(members: str) -> Prefetch:
    """The crew of spans with their names, in one query."""
    return Prefetch(members, Membership.objects.select_related("person"))


def _links(garage: Garage, jobs: Mapping[int, Job]) -> list[Link]:
    """Those that bind, both ends attached: open `jobs` as they are at hand, others with car and signature.

    Read each time: the order of work is drawn anew beside the answer to a write, which nobody counts.
    """
    links = list(Link.objects.in_garage(garage).binding())
    ends = {pk for link in links for pk in (link.before_id, link.after_id)}
    over = Job.objects.filter(pk__in=ends - jobs.keys()).select_related("vehicle", "signed_by__person")
    known = {**jobs, **{job.pk: job for job in over}}
    for link in links:
        link.before, link.after = known[link.before_id], known[link.after_id]
    return links


def load_work(garage: Garage, at: datetime) -> Work:
    """Six queries, however many jobs there are, and four more where a cure runs; two where it is remembered."""
    jobs, spans, unsigned = remembered(garage, "open_work", lambda: _rows(garage))
    links = _links(garage, jobs)
    return Work(
        at,
        jobs,
        {link.before_id: link.before for link in links},
        [wait for wait in waits_of(links) if wait.after in jobs],
        spans,
        unsigned,
        CureTimes(garage, at),
    )


def _rows(garage: Garage) -> tuple[dict[int, Job], dict[int, list[Span]], dict[int, list[HoldPoint]]]:
    """Open jobs by pk, and by job (pk) their stretches of work and unsigned hold points."""
    rows = Job.objects.in_garage(garage).open().select_related("vehicle", "skill").with_night()
    jobs = {job.pk: job for job in rows.annotate(wants_parts=Exists(Need.objects.filter(job=OuterRef("pk"))))}
    spans: dict[int, list[Span]] = defaultdict(list)
    worked = Span.objects.in_garage(garage).of_open().worked()
    for span in worked.prefetch_related(with_people("crew")):
        spans[span.job_id].append(span)
    unsigned: dict[int, list[HoldPoint]] = defaultdict(list)
    for point in HoldPoint.objects.in_garage(garage).unsigned().of_open():
        unsigned[point.job_id].append(point)
    return jobs, spans, unsigned

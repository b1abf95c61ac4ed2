"""The open work of a garage: in which order, what keeps a job from being begun, how much of it is left."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Any, Protocol

from builds.work.engine.blocks import Block
from builds.work.engine.cure_times import CureTimes
from builds.work.engine.ranks import RANK_ORDER
from builds.work.engine.state_words import OVER
from builds.work.engine.urgency import Urgency, inherited
from builds.work.engine.work_left import left_after, minutes_between
from builds.work.engine.working_order import Wait, working_order


@dataclass(frozen=True)
class RunningCure:
    """A wait that runs now: when it is over, why, and for what."""

    ready_at: datetime
    why: str
    after: str


class OpenJob(Protocol):
    """A job as it stands: its rank and state (slugs), its likely minutes, and those left where somebody said so."""

    pk: int
    title: str
    rank: str
    state: str
    weight: int
    likely_minutes: int
    left_minutes: int | None
    finished_at: datetime | None


class WorkSpan(Protocol):
    """A stretch of work on a job (aware; until None while it runs), and who was on it."""

    from_at: datetime
    until_at: datetime | None

    @property
    def people(self) -> list[Any]: ...


@dataclass(frozen=True)
class Work:
    """`jobs` are open, by pk, cars and skills attached, each with whether it `wants_parts`; every link leads to
    one of them.

    `before` has the jobs that links begin with, whatever their state; `spans` the stretches in
    which a job was worked on, oldest first; `unsigned` its hold points. `times` know when waits are over.
    """

    garage: Any
    at: datetime
    jobs: Mapping[Any, OpenJob]
    before: Mapping[Any, OpenJob]
    links: Sequence[Wait]
    spans: Mapping[int, Sequence[WorkSpan]]
    unsigned: Mapping[int, Sequence[Any]]
    times: CureTimes

    @property
    def pairs(self) -> list[tuple[Any, Any]]:
        return [(link.before, link.after) for link in self.links]

    @cached_property
    def urgency(self) -> dict[Any, Urgency[Any]]:
        return inherited({pk: job.rank for pk, job in self.jobs.items()}, self.pairs)

    @cached_property
    def waits(self) -> dict[Any, list[Wait]]:
        before: dict[Any, list[Wait]] = defaultdict(list)
        for wait in self.links:
            before[wait.after].append(wait)
        return before

    @cached_property
    def order(self) -> list[int]:
        """Job pks in working order: in hand first, then as the links and the urgency have it."""
        keys = {
            pk: (job.state != "in_hand", RANK_ORDER[self.urgency[pk].rank], -job.weight, pk)
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

    def running(self, pk: int) -> WorkSpan | None:
        """The stretch of work that runs now, if the job is in hand."""
        spans = self.spans[pk]
        return spans[-1] if spans and spans[-1].until_at is None else None

    def crew(self, pk: int) -> list[Any]:
        running = self.running(pk)
        return running.people if running else []

    def put_down(self, pk: int) -> bool:
        """Whether hands were on the open job and are not now, and there is more to do than look at it."""
        return self.rests(pk) and (self.jobs[pk].state == "waiting" or bool(self.spans[pk]))

    def rests(self, pk: int) -> bool:
        """Whether there is more to do at the open job than look at it, and nobody is at it."""
        job = self.jobs[pk]
        return job.state != "in_hand" and job.finished_at is None

    def spent(self, pk: int) -> int:
        return minutes_between(_stretches(self.spans[pk]), self.at)

    def left(self, pk: int) -> int:
        return left_of_job(self.jobs[pk], self.spans[pk], self.at)

    def urgent_from(self, pk: int) -> str:
        """Title of the job whose urgency this one carries, or nothing when it is its own."""
        source = self.urgency[pk].inherited_from
        return self.jobs[source].title if source is not None else ""


def _stretches(spans: Iterable[WorkSpan]) -> list[tuple[datetime, datetime | None]]:
    return [(span.from_at, span.until_at) for span in spans]


def left_of_job(job: OpenJob, worked: Iterable[WorkSpan], at: datetime) -> int:
    """Minutes left of an open job, from its stretches of work: none where it is done and waits for a look."""
    if job.finished_at is not None:
        return 0
    return left_after(_stretches(worked), at, job.likely_minutes, job.left_minutes)

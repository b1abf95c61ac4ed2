"""What one job waits for, near and far, and what came after it."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from builds.work.engine.working_order import Wait, reached_from, without
from builds.work.facts.cure_times import NOT_IN_SIGHT, CureTimes
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.states import FINISHED_STATES, State
from garage.clock import clock_words

OVER = (*FINISHED_STATES, State.DROPPED)


def ready_words(ready: datetime, at: datetime) -> str:
    """`ready Wed 06:30`."""
    when = "when it is warmer" if ready == NOT_IN_SIGHT else clock_words(ready, at)
    return f"ready {when}"


@dataclass(frozen=True)
class Block:
    """Why a job cannot be begun yet; `ready_at` when only time is missing."""

    sentence: str
    ready_at: datetime | None = None


def block_of(wait: Wait, before: Job, times: CureTimes, at: datetime) -> Block | None:
    """What this wait still keeps its later job from, at that moment."""
    if before.state not in OVER:
        return Block(f"“{before.title}” has to be done first: it is {before.get_state_display()}.")
    ready = times.ready_at(wait, before)
    if ready is None or ready <= at:
        return None
    why = wait.why or f"the wait after “{before.title}” runs"
    return Block(f"{why[0].upper()}{why[1:]}: {ready_words(ready, at)}.", ready)


def wait_of(link: Link) -> Wait:
    return Wait(link.before_id, link.after_id, link.wait_minutes, link.why, link.cure, link.cure_stage)


def waits_of(links: Collection[Link]) -> list[Wait]:
    """Links (ends attached) as they bind: a dropped job passes its order on to what follows."""
    dropped = {job.pk for link in links for job in (link.before, link.after) if job.state == State.DROPPED}
    waits = [wait_of(link) for link in links]
    return without(waits, dropped) if dropped else waits


def blocks_of(job: Job, at: datetime) -> list[Block]:
    """Why the job cannot be begun at that moment: jobs not finished, waits not over."""
    garage = job.vehicle.garage
    links = list(Link.objects.in_garage(garage).binding().select_related("before", "after"))
    before = {link.before_id: link.before for link in links}
    times = CureTimes(garage, at)
    blocks = (block_of(wait, before[wait.before], times, at) for wait in waits_of(links) if wait.after == job.pk)
    return [block for block in blocks if block]


def following(job: Job) -> list[Job]:
    """Jobs behind this one, however far along the links."""
    links = list(Link.objects.in_garage(job.vehicle.garage_id).standing().select_related("after"))
    jobs = {link.after_id: link.after for link in links}
    return [jobs[pk] for pk in reached_from(job.pk, [(link.before_id, link.after_id) for link in links])]


def finished_after(job: Job) -> list[Job]:
    """Those behind this one that are finished already."""
    return [after for after in following(job) if after.state in FINISHED_STATES]

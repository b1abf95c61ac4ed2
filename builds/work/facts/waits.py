"""What one job waits for, near and far, and what came after it."""

from datetime import datetime

from builds.work.facts.cure_times import CureTimes
from builds.work.facts.work import Block, block_of, joints_of
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.states import FINISHED_STATES


def blocks_of(job: Job, at: datetime) -> list[Block]:
    """Why the job cannot be begun at that moment: jobs not finished, waits not over."""
    garage = job.vehicle.garage
    rows = list(Link.objects.in_garage(garage).binding().select_related("before", "after"))
    before = {link.before_id: link.before for link in rows}
    times = CureTimes(garage, at)
    found = (block_of(joint, before[joint.before], times, at) for joint in joints_of(rows) if joint.after == job.pk)
    return [block for block in found if block]


def following(job: Job) -> list[Job]:
    """Jobs behind this one, however far along the links."""
    onward: dict[int, list[Job]] = {}
    links = Link.objects.in_garage(job.vehicle.garage_id).select_related("after")
    for link in links:
        onward.setdefault(link.before_id, []).append(link.after)
    reached: dict[int, Job] = {}
    waiting = [job.pk]
    while waiting:
        for after in onward.get(waiting.pop(), ()):
            if after.pk not in reached:
                reached[after.pk] = after
                waiting.append(after.pk)
    return list(reached.values())


def finished_after(job: Job) -> list[Job]:
    """Those behind this one that are finished already."""
    return [each for each in following(job) if each.state in FINISHED_STATES]

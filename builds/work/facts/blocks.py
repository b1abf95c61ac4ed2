"""Why a job cannot be begun at a moment."""

from datetime import datetime

from builds.cure.facts.shop import shop_of
from builds.work.engine.blocks import Block
from builds.work.engine.cure_times import CureTimes
from builds.work.facts.waits import waits_of
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.states import State


def blocks_of(job: Job, at: datetime) -> list[Block]:
    """Jobs not finished, waits not over."""
    garage = job.vehicle.garage
    links = _links_to(job)
    before = {link.before_id: link.before for link in links}
    times = CureTimes(shop_of(garage, at))
    blocks = (times.block(wait, before[wait.before]) for wait in waits_of(links) if wait.after == job.pk)
    return [block for block in blocks if block]


def _links_to(job: Job) -> list[Link]:
    """What it waits by; behind a dropped job also what that waited by, since its order is passed on."""
    links: list[Link] = []
    asked, seen = {job.pk}, {job.pk}
    while asked:
        rows = list(Link.objects.binding().filter(after__in=asked).select_related("before", "after"))
        links += rows
        asked = {link.before_id for link in rows if link.before.state == State.DROPPED} - seen
        seen |= asked
    return links

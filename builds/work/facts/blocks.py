"""Why a job cannot be begun at a moment."""

from datetime import datetime

from builds.cure.facts.shop import shop_of
from builds.work.engine.blocks import Block
from builds.work.engine.cure_times import CureTimes
from builds.work.facts.waits import waits_of
from builds.work.models.job import Job
from builds.work.models.link import Link


def blocks_of(job: Job, at: datetime) -> list[Block]:
    """Jobs not finished, waits not over."""
    garage = job.vehicle.garage
    links = list(Link.objects.in_garage(garage).binding().select_related("before", "after"))
    before = {link.before_id: link.before for link in links}
    times = CureTimes(shop_of(garage, at))
    blocks = (times.block(wait, before[wait.before]) for wait in waits_of(links) if wait.after == job.pk)
    return [block for block in blocks if block]

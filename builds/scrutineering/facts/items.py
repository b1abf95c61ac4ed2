"""Items of a scrutineering list: whether a tick still holds, and the job that a fail opened."""

from collections.abc import Iterable
from datetime import datetime

from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.engine.scrutineering import CarWork, touched_since
from builds.scrutineering.facts.car_works import RAN
from builds.scrutineering.models.check import CheckItem, CheckLog
from builds.work.models.job import Job


def void_of(item: CheckItem, works: Iterable[CarWork], gates_at: datetime) -> str:
    """Why the item's tick holds no more; empty for what is not ticked.

    `gates_at` are those of the list's own event: what running there changes has a list of its own.
    """
    if item.state != CheckState.TICKED or item.at is None:
        return ""
    before = [work for work in works if RAN not in work.kinds or (work.ended and work.ended < gates_at)]
    return touched_since(item.systems, item.at, before, item.kinds)


def fail_jobs(items: Iterable[CheckItem]) -> dict[int, Job]:
    """The last job that a fail of each item (pk) opened; one query."""
    rows = CheckLog.objects.filter(item__in=list(items), step="fail").exclude(job=None)
    return {line.item_id: line.job for line in rows.select_related("job").order_by("at")}

"""Items of a scrutineering list: whether a tick still holds, and the job that a fail opened."""

from collections.abc import Iterable

from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.engine.scrutineering import CarWork, touched_since
from builds.scrutineering.models.check import CheckItem, CheckLog
from builds.work.models.job import Job


def void_of(item: CheckItem, works: Iterable[CarWork]) -> str:
    """Why the item's tick holds no more; empty for what is not ticked."""
    if item.state != CheckState.TICKED or item.at is None:
        return ""
    return touched_since(item.systems, item.at, works, item.kinds)


def fail_jobs(items: Iterable[CheckItem]) -> dict[int, Job]:
    """The last job that a fail of each item (pk) opened; one query."""
    rows = CheckLog.objects.filter(item__in=list(items), step="fail").exclude(job=None)
    return {line.item_id: line.job for line in rows.select_related("job").order_by("at")}

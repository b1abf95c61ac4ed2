"""Items of a scrutineering list: the job that a fail opened."""

from collections.abc import Iterable

from builds.scrutineering.models.check import CheckItem, CheckLog
from builds.work.models.job import Job


def fail_jobs(items: Iterable[CheckItem]) -> dict[int, Job]:
    """The last job that a fail of each item (pk) opened; one query."""
    rows = CheckLog.objects.filter(item__in=list(items), step="fail").exclude(job=None)
    return {line.item_id: line.job for line in rows.select_related("job").order_by("at")}

"""When somebody saw what a job mends."""

from datetime import datetime

from django.db.models import Max

from builds.work.models.job import Job


def seen_at(job: Job) -> datetime | None:
    """When it was found, or last failed at scrutineering; None of work that nobody saw a reason for."""
    failed = job.checks.filter(step="fail").aggregate(last=Max("at"))["last"]
    found = job.made_at if job.was_seen else None
    return max(filter(None, [failed, found]), default=None)

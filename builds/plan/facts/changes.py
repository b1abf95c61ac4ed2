"""What has changed since a plan was made, from what it was made from and the rows as they are."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from builds.plan.engine.basis import Basis
from builds.plan.engine.changes import PlanChanges, changes_between, jobs_gone
from builds.work.models.job import Job


def changes_since(made_from: Mapping[str, Any], basis: Basis, at: datetime) -> PlanChanges:
    """One query, for what became of jobs that are not open any more; none where there are none."""
    gone = jobs_gone(made_from, basis)
    states = dict(Job.objects.filter(pk__in=gone).values_list("pk", "state")) if gone else {}
    return changes_between(made_from, basis, states, at)

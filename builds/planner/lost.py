"""The cars whose event is lost: what must be done for it cannot be, whatever the plan."""

from __future__ import annotations

from collections import defaultdict

from builds.planner.axis import clip, length
from builds.planner.model import Model
from builds.planner.problem import Job
from builds.planner.soonest import soonest_ends


def lost_cars(model: Model) -> set[str | None]:
    """Cars with a job that must be done and is late even alone, or with more work than all people have hours for."""
    must: dict[str | None, list[Job]] = defaultdict(list)
    lost: set[str | None] = set()
    for job, end in zip(model.problem.jobs, soonest_ends(model), strict=True):
        if job.due is not None and job.must_do:
            must[job.vehicle].append(job)
            if end > job.due:
                lost.add(job.vehicle)
    for car, jobs in must.items():
        due = max(job.due or 0 for job in jobs)
        hours = sum(length(clip(person.windows, min(due, model.horizon))) for person in model.problem.people)
        if sum(job.work * job.hands for job in jobs) > hours:
            lost.add(car)
    return lost

"""Finished work that a second person has still to look at, as the verdict has it."""

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from django.db.models import Q

from builds.verdict.engine import JobFact
from builds.verdict.facts.jobs import covered_jobs, is_covered
from builds.work.facts.work import Work
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.models import Garage, Vehicle

Signed = tuple[Job, set[int]]
COLUMNS = ("pk", "rank", "state", "systems", "kinds", "recipe", "vehicle_id")


def jobs_to_sign(garage: Garage, work: Work) -> list[Signed]:
    """Each job with the members (pk) whose hands were on it; five queries at most.

    Besides those that `work` knows: of recipes, where no hold point looks at them, and those that
    were ranked below what they touch.
    """
    known: list[Signed] = [(job, work.workers[job.pk]) for job in work.to_sign]
    done = (
        Job.objects.in_garage(garage)
        .filter(state=State.DONE, vehicle__gone_at=None)
        .exclude(Q(recipe="", rank=Job.Rank.SAFETY))
        .order_by("pk")
        .values(*COLUMNS)
    )
    candidates = [job for job in done if _is_safety(job) and not is_covered(job, ())]
    if not candidates:
        return known
    cars = Vehicle.objects.filter(pk__in={job["vehicle_id"] for job in candidates})
    looked_at = covered_jobs(cars)
    unsigned = [job["pk"] for job in candidates if not is_covered(job, looked_at)]
    jobs = Job.objects.filter(pk__in=unsigned).select_related("vehicle", "skill")
    workers: dict[int, set[int]] = defaultdict(set)
    crews = Span.objects.filter(job__in=unsigned).exclude(crew=None)
    for job, member in crews.values_list("job_id", "crew"):
        workers[job].add(member)
    return known + [(job, workers[job.pk]) for job in jobs.order_by("pk")]


def _is_safety(job: Mapping[str, Any]) -> bool:
    return JobFact(job["pk"], "", job["rank"], job["state"], tuple(job["systems"])).safety

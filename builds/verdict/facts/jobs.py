"""What the verdict is told of jobs, car by car, and which of them a hold point has looked at."""

from collections import defaultdict
from collections.abc import Container, Iterable, Mapping
from typing import Any

from django.db.models import Exists, F, OuterRef, Q

from builds.verdict.engine import JOINTS, JobFact, covered
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES, OPEN_STATES, State
from garage.models import Vehicle

JOB_FIELDS = ("pk", "title", "rank", "state", "systems", "kinds", "lowered_because", "recipe")


def covered_jobs(vehicles: Iterable[Vehicle]) -> frozenset[int]:
    """Finished jobs (pk) of recipes that a hold point after them looks at; two queries."""
    batches = Job.objects.filter(vehicle__in=vehicles, state=State.DONE).exclude(batch=None)
    points = HoldPoint.objects.filter(job__batch__in=batches.values("batch")).exclude(
        job__state=State.DROPPED, signed_at=None
    )
    points = points.exclude(signed_at__lt=F("job__finished_at"))  # work went on after the look
    links = Link.objects.by_hand().filter(before__batch__in=batches.values("batch"), after__batch=F("before__batch"))
    return covered(points.values_list("job_id", flat=True), links.values_list("before_id", "after_id"))


def is_covered(row: Mapping[str, Any], looked_at: Container[int]) -> bool:
    """Whether a done job (its row) needs no signature of its own: see `JobFact.covered`."""
    return bool(row["recipe"]) and (row["pk"] in looked_at or JOINTS.isdisjoint(row["kinds"]))


def job_facts(vehicles: list[Vehicle], mentioned: set[int]) -> dict[int, list[JobFact]]:
    """Every job that can be a reason, and those that a hold point or a strip mentions."""
    spans = Span.objects.filter(job=OuterRef("pk"))
    # Held with hands on it: work that nobody started was finished and waits at its hold point.
    stopped = Q(state=State.HELD, crew__isnull=False)
    rows = (
        Job.objects.filter(vehicle__in=vehicles)
        .annotate(handled=Exists(spans.filter(Q(state__in=[State.IN_HAND, *FINISHED_STATES]) | stopped)))
        .annotate(told=Exists(spans))
        .filter(Q(state__in=[*OPEN_STATES, State.DONE]) | Q(state=State.DROPPED, handled=True) | Q(pk__in=mentioned))
        .order_by("pk")
        .values(*JOB_FIELDS, "vehicle_id", "handled", "told")
    )
    looked_at = covered_jobs(vehicles)
    facts: dict[int, list[JobFact]] = defaultdict(list)
    for job in rows:
        # A job put down without a history is taken as begun: not known is not fit.
        untold = job["state"] in (State.WAITING, State.HELD) and not job["told"]
        facts[job["vehicle_id"]].append(
            JobFact(
                job["pk"],
                job["title"],
                job["rank"],
                job["state"],
                tuple(job["systems"]),
                worked=job["handled"] or untold,
                covered=is_covered(job, looked_at),
                lowered_because=job["lowered_because"],
            )
        )
    return facts

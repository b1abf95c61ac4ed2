"""Whose hands were on what a hold point looks at, and which finished work nobody else has seen."""

from collections import defaultdict
from collections.abc import Container, Iterable, Mapping
from datetime import datetime
from typing import Any

from django.db.models import QuerySet

from builds.readings.engine.kinds_touch import touched
from builds.steps.engine.looks import Eyes, RecipeWork, covering, leaves_joint, wants_look
from builds.work.engine.ranks import rank_for
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.access import OWNER, refuse_working
from garage.models import Membership, Vehicle

Covering = dict[int, frozenset[int]]
COLUMNS = ("pk", "rank", "was_safety", "systems", "kinds", "recipe", "batch", "finished_at", "vehicle_id")


def eyes_of(member: Membership) -> Eyes:
    here = member.left_at is None and member.person.is_active and refuse_working(member) is None
    return Eyes(member.pk, member.name, here, member.may_sign, member.role == OWNER)


def hands_of(garage: int) -> list[Eyes]:
    """All who may work on the cars of a garage (pk); one query."""
    return [eyes_of(member) for member in Membership.objects.in_garage(garage).hands().select_related("person")]


def for_safety(job: Job | Mapping[str, Any]) -> bool:
    """By rank, by what it touches or opens, or because it once was: a lowered rank does not tighten a joint."""
    if isinstance(job, Job):
        return job.was_safety or Job.Rank.SAFETY in (job.rank, rank_for(touched(job.systems, job.kinds)))
    return job["was_safety"] or Job.Rank.SAFETY in (job["rank"], rank_for(touched(job["systems"], job["kinds"])))


def workers_of(jobs: Iterable[int]) -> dict[int, frozenset[int]]:
    """Of each job (pk) the members (pk) whose hands were ever on it; one query."""
    hands: dict[int, set[int]] = {job: set() for job in jobs}
    for job, member in Span.objects.filter(job__in=list(hands), crew__isnull=False).values_list("job_id", "crew"):
        hands[job].add(member)
    return {job: frozenset(members) for job, members in hands.items()}


def hands_looked_at(jobs: Iterable[Job]) -> dict[int, frozenset[int]]:
    """Of each job (pk) those (pk) whose hands were on what its hold points look at; four queries."""
    asked = list(jobs)
    batches = {job.batch for job in asked if job.batch}
    looked_at: dict[int, set[int]] = {job.pk: {job.pk} for job in asked}
    if batches:
        rows = list(Job.objects.filter(batch__in=batches).values(*COLUMNS))
        joints = {job["pk"] for job in rows if for_safety(job) and leaves_joint(job["kinds"])}
        for work, points in _covering(rows).items():
            for pk in points & looked_at.keys() if work in joints else ():
                looked_at[pk].add(work)
    hands = workers_of({work for works in looked_at.values() for work in works})
    return {pk: frozenset().union(*(hands[work] for work in works)) for pk, works in looked_at.items()}


def covering_on(vehicles: Iterable[Vehicle]) -> Covering:
    """Of the recipes' jobs on these cars (pk) with one that is done, where points look at them."""
    done = Job.objects.filter(vehicle__in=vehicles, state=State.DONE).exclude(batch=None)
    return _covering(list(Job.objects.filter(batch__in=done.values("batch")).values(*COLUMNS)))


def _covering(rows: list[dict[str, Any]]) -> Covering:
    """Of these jobs (`COLUMNS`); two queries."""
    jobs = [job["pk"] for job in rows]
    points: dict[int, list[datetime | None]] = defaultdict(list)
    kept = HoldPoint.objects.filter(job__in=jobs).exclude(job__state=State.DROPPED, signed_at=None)
    for job, signed in kept.values_list("job_id", "signed_at"):
        points[job].append(signed)
    batch = {job["pk"]: job["batch"] for job in rows}
    links = Link.objects.by_hand().filter(before__in=jobs, after__in=jobs).values_list("before_id", "after_id")
    return covering(
        (
            RecipeWork(job["pk"], frozenset(job["systems"]), job["finished_at"], tuple(points[job["pk"]]))
            for job in rows
        ),
        [(before, after) for before, after in links if batch[before] == batch[after]],
    )


def is_covered(job: Mapping[str, Any], points: Mapping[int, Container[int]]) -> bool:
    """Whether a job (`COLUMNS`), once done, needs no look of its own."""
    covered = bool(points.get(job["pk"]))
    return not wants_look(safety=True, of_recipe=bool(job["recipe"]), kinds=job["kinds"], covered=covered)


def to_look_at(jobs: QuerySet[Job]) -> list[int]:
    """Those (pk) that are done for safety and that nobody else has looked at; four queries at most."""
    done = jobs.filter(state=State.DONE).order_by("pk").values(*COLUMNS)
    waiting = [job for job in done if for_safety(job)]
    unclear = {job["vehicle_id"] for job in waiting if job["recipe"] and not is_covered(job, {})}
    points = covering_on(Vehicle.objects.filter(pk__in=unclear)) if unclear else {}
    return [job["pk"] for job in waiting if not is_covered(job, points)]

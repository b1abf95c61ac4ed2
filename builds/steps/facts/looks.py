"""Whose hands were on what a hold point looks at, and which finished work nobody else has seen."""

from collections.abc import Container, Iterable, Mapping
from dataclasses import replace
from typing import Any

from django.db.models import Exists, F, OuterRef, Q, QuerySet

from builds.readings.engine.kinds_touch import TOUCHED_BY, touched
from builds.steps.engine.looks import JOINTS, Eyes, RecipeWork, covering, wants_look
from builds.work.engine.ranks import rank_for
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job, names_any
from builds.work.models.link import Link
from builds.work.models.span import Span
from builds.work.models.states import OPEN_STATES, State
from garage.access import OWNER, refuse_working
from garage.engine.systems import SAFETY_SYSTEMS
from garage.models import Garage, Membership, Vehicle
from garage.remembered import remembered

Covering = dict[int, frozenset[int]]
# Of jobs `with_texts`: all but those of which the row alone says that, once done, nobody has to look at them.
MAY_WANT_LOOK = (
    Q(seen=True)
    | Q(found_in__isnull=False)
    | ~Q(recipe="") & names_any("kinds", sorted(JOINTS))
    | Q(recipe="")
    & (
        Q(rank=Job.Rank.SAFETY)
        | Q(was_safety=True)
        | names_any("systems", sorted(SAFETY_SYSTEMS))
        | names_any("kinds", TOUCHED_BY)
    )
)
# By what a job shows whether anybody could read what was seen.
READ_BY = (
    *("recipe", "measures", "systems", "kinds", "kinds_likely"),
    *("seen", "found_in_id", "was_unread", "turned_out"),
)
COLUMNS = (*READ_BY, "pk", "rank", "was_safety", "vehicle_id")


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


def unread(job: Job | Mapping[str, Any]) -> bool:
    """Somebody saw it, and nobody has said what it touches: it may be anything.

    It stays so whatever is ticked on it or done in it, until the owner says in words what it was: another looks.
    """
    row = {name: getattr(job, name) for name in READ_BY} if isinstance(job, Job) else job
    if row["was_unread"] or row["turned_out"]:
        return not row["turned_out"]
    if row["recipe"] or row["measures"] or not (row["seen"] or row["found_in_id"]):
        return False
    return not touched(row["systems"], row["kinds"]) and (row["kinds_likely"] or not row["kinds"])


def wants_eyes(job: Job | Mapping[str, Any]) -> bool:
    """Whether somebody else has to look at it once it is done, and only the owner drops it."""
    return for_safety(job) or unread(job)


def workers_of(jobs: Iterable[int]) -> dict[int, frozenset[int]]:
    """Of each job (pk) the members (pk) whose hands were ever on it; one query."""
    hands: dict[int, set[int]] = {job: set() for job in jobs}
    for job, member in Span.objects.filter(job__in=list(hands), crew__isnull=False).values_list("job_id", "crew"):
        hands[job].add(member)
    return {job: frozenset(members) for job, members in hands.items()}


def hands_in(garage: Garage) -> list[Eyes]:
    """As `hands_of`; no query where it is remembered."""
    return remembered(garage, "hands", lambda: hands_of(garage.pk))


def hands_known(garage: Garage, jobs: Iterable[Job]) -> dict[int, frozenset[int]]:
    """As `hands_looked_at`, of jobs of a garage; no query where they are remembered."""
    asked, known = list(jobs), remembered(garage, "hands_looked_at", dict[int, frozenset[int]])
    if left := [job for job in asked if job.pk not in known]:
        known |= hands_looked_at(left)
    return {job.pk: known[job.pk] for job in asked}


def hands_looked_at(jobs: Iterable[Job]) -> dict[int, frozenset[int]]:
    """Of each job (pk) those (pk) whose hands were on what its hold points look at; four queries."""
    asked = list(jobs)
    batches = {job.batch for job in asked if job.batch}
    looked_at: dict[int, set[int]] = {job.pk: {job.pk} for job in asked}
    if batches:
        for work, points in _covering(Job.objects.filter(batch__in=batches)).items():
            for pk in points & looked_at.keys():
                looked_at[pk].add(work)
    hands = workers_of({work for works in looked_at.values() for work in works})
    return {pk: frozenset().union(*(hands[work] for work in works)) for pk, works in looked_at.items()}


def covering_on(vehicles: Iterable[Vehicle]) -> Covering:
    """Where points look at the jobs (pk) on these cars that came with one that is done.

    Of those alone that leave a joint, since the others want no look, and that nobody has signed.
    """
    with_done = Job.objects.filter(batch=OuterRef("batch"), state=State.DONE, vehicle__in=vehicles)
    jobs = Job.objects.filter(vehicle__in=vehicles, state__in=[*OPEN_STATES, State.DONE]).exclude(batch=None)
    return _covering(jobs.filter(Q(state=State.DONE) | Exists(with_done)))


def _covering(jobs: QuerySet[Job]) -> Covering:
    """Of those of these jobs that leave a joint, by the points of what they came with; three queries."""
    leaving = jobs.with_texts().filter(names_any("kinds", sorted(JOINTS)))
    rows = list(leaving.values_list("batch", "pk", "systems", "finished_at"))
    asked, batches = {pk for _, pk, *_ in rows}, {batch for batch, *_ in rows}
    if not batches:
        return {}
    works = {pk: RecipeWork(pk, frozenset(systems), ended) for _, pk, systems, ended in rows}
    kept = HoldPoint.objects.filter(job__batch__in=batches).exclude(job__state=State.DROPPED, signed_at=None)
    for signed, pk, systems, ended in kept.values_list("signed_at", "job_id", "job__systems", "job__finished_at"):
        work = works.get(pk) or RecipeWork(pk, frozenset(systems), ended)
        works[pk] = replace(work, points=(*work.points, signed))
    links = Link.objects.by_hand().filter(before__batch__in=batches, before__batch=F("after__batch"))
    looked_at = covering(works.values(), links.values_list("before_id", "after_id"))
    return {pk: points for pk, points in looked_at.items() if pk in asked}


def is_covered(job: Mapping[str, Any], points: Mapping[int, Container[int]]) -> bool:
    """Whether a job (`COLUMNS`), once done, needs no look of its own."""
    covered = bool(points.get(job["pk"]))
    return not wants_look(safety=True, of_recipe=bool(job["recipe"]), kinds=job["kinds"], covered=covered)


def to_look_at(jobs: QuerySet[Job]) -> list[int]:
    """Those (pk) that are done for safety and that nobody else has looked at; four queries at most."""
    done = jobs.with_texts().filter(MAY_WANT_LOOK, state=State.DONE).order_by("pk").values(*COLUMNS)
    waiting = [job for job in done if wants_eyes(job)]
    unclear = {job["vehicle_id"] for job in waiting if job["recipe"] and not is_covered(job, {})}
    points = covering_on(Vehicle.objects.filter(pk__in=unclear)) if unclear else {}
    return [job["pk"] for job in waiting if not is_covered(job, points)]


def waiting_for_look(garage: Garage) -> frozenset[int]:
    """Those (pk) of all its cars, as `to_look_at`; no query where it is remembered."""
    return remembered(garage, "waits_for_look", lambda: frozenset(to_look_at(Job.objects.in_garage(garage))))

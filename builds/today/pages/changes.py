"""What changed since a moment: steps taken, jobs written down, things found."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.urls import reverse

from builds.recipes.facts import recipe_title
from builds.work.facts.work import Work
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.clock import clock_words
from garage.models import Garage, Membership

DID = {
    State.OPEN: "opened again",
    State.IN_HAND: "started",
    State.WAITING: "put down",
    State.HELD: "stopped at",
    State.DONE: "finished",
    State.SIGNED: "signed",
    State.DROPPED: "dropped",
}
MOST = 12
FEW = 2


@dataclass(frozen=True)
class NewsLine:
    """`what` links to the job or, for a recipe, to the car."""

    at: datetime
    when: str
    who: str
    did: str
    what: str
    url: str
    car: str
    note: str = ""


@dataclass(frozen=True)
class Changes:
    lines: tuple[NewsLine, ...]
    more: int


def changes_since(garage: Garage, since: datetime, work: Work, members: Iterable[Membership]) -> Changes:
    """Newest first; one query beyond the work and the people that are known already."""
    names = {member.pk: member.name for member in members}
    spans = list(
        Span.objects.in_garage(garage)
        .begun_since(since)
        .order_by("-from_at", "-pk")
        .select_related("job__vehicle", "by__person")
    )
    found = [_step(span, work.at) for span in _last_words(spans)]
    fresh = [job for job in work.jobs.values() if job.made_at >= since]
    found += _written(fresh, names, work.at)
    found.sort(key=lambda change: change.at, reverse=True)
    return Changes(tuple(found[:MOST]), max(0, len(found) - MOST))


def _last_words(spans: list[Span]) -> list[Span]:
    """The last thing that became of each job, and every finish; stretches between say little."""
    seen: set[int] = set()
    found = []
    for span in spans:
        if span.job_id not in seen or span.state in (State.DONE, State.SIGNED, State.DROPPED):
            found.append(span)
        seen.add(span.job_id)
    return found


def _step(span: Span, at: datetime) -> NewsLine:
    return NewsLine(
        span.from_at,
        clock_words(span.from_at, at),
        span.by.name,
        DID[State(span.state)],
        span.job.title,
        reverse("job_page", args=[span.job_id]),
        span.job.vehicle.name,
        span.note,
    )


def _written(jobs: list[Job], names: dict[int, str], at: datetime) -> list[NewsLine]:
    """Jobs written down: those of one recipe in one line, and many by one person on one car."""
    found: list[NewsLine] = []
    batches: dict[UUID, list[Job]] = defaultdict(list)
    single: dict[tuple[int, int], list[Job]] = defaultdict(list)
    for job in jobs:
        if job.batch:
            batches[job.batch].append(job)
        elif job.found_in_id:
            found.append(_line(job, names, at, "found", job.title, _url(job)))
        else:
            single[job.made_by_id, job.vehicle_id].append(job)
    for rows in single.values():
        if len(rows) > FEW:
            url = reverse("vehicle_page", args=[rows[0].vehicle_id])
            found.append(_line(rows[-1], names, at, "wrote down", f"{len(rows)} jobs", url))
        else:
            found += [_line(job, names, at, "wrote down", job.title, _url(job)) for job in rows]
    for rows in batches.values():
        first = rows[0]
        what = f"{len(rows)} jobs of {recipe_title(first.recipe)}"
        url = reverse("vehicle_page", args=[first.vehicle_id])
        found.append(_line(first, names, at, "put on", what, url))
    return found


def _url(job: Job) -> str:
    return reverse("job_page", args=[job.pk])


def _line(job: Job, names: dict[int, str], at: datetime, did: str, what: str, url: str) -> NewsLine:
    who = names.get(job.made_by_id, "")
    when = clock_words(job.made_at, at)
    return NewsLine(job.made_at, when, who, did, what, url, job.vehicle.name)

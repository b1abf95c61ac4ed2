"""What changed since a moment: steps taken, jobs written down, things found."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from uuid import UUID

from django.urls import reverse

from builds.readings.engine.amiss import told_by_reading
from builds.recipes.engine.parse import recipe_title
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.engine.open_work import Work
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import OPEN_STATES, State
from garage.clock import clock_words
from garage.models import Garage, Membership
from garage.remembered import remembered

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
class News:
    """`more` lines than are shown; `found` is what could hurt somebody and is still to do."""

    lines: tuple[NewsLine, ...]
    more: int
    found: tuple[NewsLine, ...] = ()

    @property
    def count(self) -> int:
        return len(self.lines) + self.more


def news_since(since: datetime, garage: Garage, work: Work, members: Iterable[Membership]) -> News:
    """Newest first; two queries beyond the people that are known already, none where it is remembered.

    What was written down stays as it was said, however much of it has been done since.
    """
    names = {member.pk: member.name for member in members}
    spans, fresh = remembered(garage, ("news", since), lambda: (_begun(garage, since), _made(garage, since)))
    lines = [_step(span, names, work.at) for span in _last_words(spans)]
    lines += _written(fresh, names, work.at)
    lines.sort(key=lambda line: line.at, reverse=True)
    found = [_of_job(job, "found", names, work.at) for job in reversed(fresh) if _hurts(job)]
    return News(tuple(lines[:MOST]), max(0, len(lines) - MOST), tuple(found))


def _begun(garage: Garage, since: datetime) -> list[Span]:
    spans = Span.objects.in_garage(garage).begun_since(since).order_by("-from_at", "-pk")
    return list(spans.select_related("job__vehicle", "by__person").with_first_hand())


def _made(garage: Garage, since: datetime) -> list[Job]:
    kept = Job.objects.in_garage(garage).filter(made_at__gte=since, vehicle__gone_at=None)
    return list(kept.select_related("vehicle").order_by("made_at", "pk"))


def _hurts(job: Job) -> bool:
    return job.found_in_id is not None and job.rank == Job.Rank.SAFETY and job.state in OPEN_STATES


def _last_words(spans: list[Span]) -> list[Span]:
    """The last thing that became of each job, and every finish; stretches between say little."""
    seen: set[int] = set()
    told = []
    for span in spans:
        if span.until_at == span.from_at and not span.first_hand:
            continue  # passed through on the way to another state
        if span.job_id not in seen or _finished(span) or span.state in (State.SIGNED, State.DROPPED):
            told.append(span)
        seen.add(span.job_id)
    return told


def _finished(span: Span) -> bool:
    """By hands, though a second pair of eyes may have to look before it is done."""
    return span.state == State.DONE or (span.state == State.HELD and span.first_hand is not None)


def _step(span: Span, names: dict[int, str], at: datetime) -> NewsLine:
    """Of a finish whose hands it was, whoever tapped."""
    finished_by = names.get(span.first_hand) if _finished(span) else None
    return NewsLine(
        span.from_at,
        clock_words(span.from_at, at),
        finished_by or span.by.name,
        DID[State.DONE if _finished(span) else State(span.state)],
        f"“{span.job.title}”",
        reverse("job_page", args=[span.job_id]),
        span.job.vehicle.name,
        span.note,
    )


def _written(jobs: list[Job], names: dict[int, str], at: datetime) -> Iterator[NewsLine]:
    """Jobs written down: those of one recipe in one line, many by one person on one car, none that comes of itself."""
    batches: dict[UUID, list[Job]] = defaultdict(list)
    single: dict[tuple[int, int], list[Job]] = defaultdict(list)
    for job in (one for one in jobs if one.recipe not in TAKEN_AGAIN):
        if told := told_by_reading(job.title):
            yield _of_job(job, "found that", names, at, what=told)
        elif job.batch:
            batches[job.batch].append(job)
        elif job.found_in_id:
            yield _of_job(job, "found", names, at)
        else:
            single[job.made_by_id, job.vehicle_id].append(job)
    for written in single.values():
        if len(written) > FEW:
            yield _of_car(written[-1], "wrote down", f"{len(written)} jobs", names, at)
        else:
            yield from (_of_job(job, "wrote down", names, at) for job in written)
    for put_on in batches.values():
        yield _of_car(put_on[0], "put on", f"{len(put_on)} jobs of {recipe_title(put_on[0].recipe)}", names, at)


def _of_job(job: Job, did: str, names: dict[int, str], at: datetime, what: str = "") -> NewsLine:
    line = _of_car(job, did, what or f"“{job.title}”", names, at)
    return replace(line, url=reverse("job_page", args=[job.pk]))


def _of_car(job: Job, did: str, what: str, names: dict[int, str], at: datetime) -> NewsLine:
    """As the job was written, with a link to its car."""
    return NewsLine(
        job.made_at,
        clock_words(job.made_at, at),
        names.get(job.made_by_id, ""),
        did,
        what,
        reverse("vehicle_page", args=[job.vehicle_id]),
        job.vehicle.name,
    )

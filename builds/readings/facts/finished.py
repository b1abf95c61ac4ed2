"""Work on cars that ended and disturbs readings."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any

from django.db.models import Exists, Max, OuterRef, Q, QuerySet

from builds.readings.engine.kinds_of_work import KINDS, likely_kinds
from builds.readings.engine.kinds_said import part_kinds
from builds.readings.engine.void import FINISHED, GOES_ON, LEFT, WRITTEN, FinishedWork, pulled_work
from builds.work.engine.car_work import RUNNING
from builds.work.models.entry_run import EntryRun
from builds.work.models.job import Job, names_any
from builds.work.models.owed import Owed
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.models import Vehicle

CRASH = "crash"


def finished_work(vehicles: Iterable[Vehicle], since: datetime, at: datetime) -> dict[int, list[FinishedWork]]:
    """Work of each car (pk) that ended `since` a moment and disturbs readings, or goes on `at` this one: two queries.

    A job opened again was still finished once, and one that was put down or dropped half way was
    worked on: it opened what such work mostly does, until somebody says what. Who looks at finished
    work and signs it does not work on it again. A crash has happened from when it was written down,
    as for gear; a part pulled for another car was work too, unless the pulling was undone. The
    running itself is told by `runs_of`: its job, and one that was taken back, disturb nothing here.
    """
    hands, again = Q(spans__state=State.IN_HAND), Q(spans__state=State.OPEN)
    # The finish names hands; the signature after a hold point names none.
    done = Q(spans__state__in=[State.HELD, State.DONE], spans__crew__isnull=False)
    rows = (
        _may_have_ended(vehicles, since)
        .exclude(_opens_nothing())
        .annotate(done_at=Max("spans__from_at", filter=done))
        .annotate(begun_at=Max("spans__from_at", filter=hands))
        .annotate(again_at=Max("spans__from_at", filter=again))
        .annotate(left_at=Max("spans__until_at", filter=hands))
        .annotate(goes_on=Exists(Span.objects.running().filter(job=OuterRef("pk"), state=State.IN_HAND)))
        .annotate(ran=Exists(EntryRun.objects.filter(job=OuterRef("pk"))))
        .values(
            *("pk", "vehicle_id", "title", "kinds", "systems", "measures", "state", "finished_at", "made_at"),
            *("done_at", "begun_at", "again_at", "left_at", "goes_on", "ran"),
        )
    )
    work_of: dict[int, list[FinishedWork]] = defaultdict(list)
    for job in rows:
        work_of[job["vehicle_id"]] += _work(job, at)
    pulls = Owed.objects.filter(vehicle__in=vehicles, move__at__gte=since).standing().select_related("move__part")
    for owed in pulls:
        part = owed.move.part
        kinds = part_kinds(part.name, part.touches, unit=part.is_unit)
        work_of[owed.vehicle_id].append(pulled_work(owed.job_id, part.name, kinds, owed.move.at))
    return work_of


def _work(job: dict[str, Any], at: datetime) -> Iterator[FinishedWork]:
    if CRASH in job["kinds"]:  # it has happened, whatever became of the job
        yield FinishedWork(job["pk"], job["title"], (CRASH,), job["made_at"], job["made_at"], WRITTEN)
    ended, end = (at, GOES_ON) if job["goes_on"] else _ended(job)
    if ended:
        told = job["ran"] or job["state"] == State.DROPPED
        said = job["kinds"] or likely_kinds(job["systems"], job["measures"])
        kinds = tuple(kind for kind in said if kind in KINDS and not (told and kind == RUNNING))
        measures = tuple(job["measures"])
        yield FinishedWork(job["pk"], job["title"], kinds, ended, _begun(job), end, measures=measures)


def _may_have_ended(vehicles: Iterable[Vehicle], since: datetime) -> QuerySet[Job]:
    """What was finished since then, and what is not finished but was worked on; a crash written down since.

    A job that hands went to again, or that was opened again, has no moment at which it was finished. The work
    after a crash may have ended before anybody wrote the crash down.
    """
    unfinished = Q(finished_at=None) & Exists(Span.objects.filter(job=OuterRef("pk")).handled())
    crashes = Q(made_at__gte=since) & names_any("kinds", [CRASH])
    ended = Q(finished_at__gte=since) | unfinished | crashes
    return Job.objects.filter(vehicle__in=vehicles).with_texts().filter(ended)


def _opens_nothing() -> Q:
    """Of jobs without a kind of work: what its recipe or its finish says, and what its owner says of one left off."""
    said = ~Q(recipe="") | ~Q(finished_at=None) | ~Q(whole_because="")
    return Q(kinds=[]) & said


def _ended(job: dict[str, Any]) -> tuple[datetime | None, str]:
    """When hands were last done with it, and how."""
    finished = max((moment for moment in (job["finished_at"], job["done_at"]) if moment), default=None)
    left = job["left_at"]
    return (left, LEFT) if left and (finished is None or left > finished) else (finished, FINISHED)


def _begun(job: dict[str, Any]) -> datetime | None:
    """When hands last went to it; opened again and finished without a start, from then on."""
    begun = [job["begun_at"], job["again_at"] if job["finished_at"] else None]
    return max((moment for moment in begun if moment), default=None)

"""When cars ran: told after their first session, or unanswered once the event is over; driven in a job."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import datetime

from django.db.models import QuerySet

from builds.work.engine.running import Run
from builds.work.models.job import Job, names_any
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.models import Entry, Event, Garage, Vehicle
from garage.remembered import remembered

DRIVEN = "driven"
RunsByCar = dict[int, list[Run]]
# Which car (pk), at which event, when it ends and how many runs it has there; when somebody said that it ran.
MayHaveRun = tuple[int, str, datetime, int, datetime | None]


def unanswered(event: Event, at: datetime) -> QuerySet[Entry]:
    """Its cars of which nobody has said whether they ran, once it has begun."""
    return Entry.objects.may_have_run().filter(event=event, run=None, event__gates_at__lte=at)


def runs_of(garage: Garage, vehicles: Iterable[Vehicle], at: datetime) -> RunsByCar:
    """Of each car (pk) that may have run by then; two queries, none where it is remembered.

    Written down after the event is over, it ran by the event's end. A car of which somebody said
    that it did not run, or that was withdrawn before the event began, has none there.
    """
    asked = {vehicle.pk for vehicle in vehicles}
    runs: dict[int, list[Run]] = defaultdict(list)
    for car, event, ends_at, count, told_at in remembered(garage, "runs", lambda: _may_have_run(garage)):
        if car in asked and (told_at or ends_at <= at):
            until = ends_at if ends_at <= at else None
            runs[car].append(Run(event, min(told_at or ends_at, ends_at), told_at is not None, count, until))
    for car, run in remembered(garage, "drives", lambda: list(_driven(garage))):
        if car in asked:
            runs[car].append(run)
    return runs


def _may_have_run(garage: Garage) -> list[MayHaveRun]:
    """Whatever the clock says."""
    entries = Entry.objects.in_garage(garage)
    rows = entries.filter(run__ran=True) | entries.may_have_run().filter(run=None)
    return list(rows.values_list("vehicle_id", "event__name", "event__ends_at", "event__runs", "run__at"))


def _driven(garage: Garage) -> Iterator[tuple[int, Run]]:
    """Runs in jobs, whatever became of these: until hands last left them, or from when they are in hand."""
    jobs = Job.objects.in_garage(garage).with_texts().filter(names_any("kinds", [DRIVEN]))
    spans = Span.objects.filter(job__in=jobs).by_hands().order_by("job_id", "from_at")
    told: dict[int, tuple[int, Run]] = {}
    for job, car, title, state, begun, left in spans.values_list(
        "job_id", "job__vehicle_id", "job__title", "state", "from_at", "until_at"
    ):
        started = begun if state == State.IN_HAND else None
        # Work that nobody started was over when it was finished.
        ended, before = left if started and left else begun, told[job][1] if job in told else None
        if before:
            ended, started = max(ended, before.since), started or before.begun
        told[job] = car, Run(title, ended, told=True, job=job, begun=started)
    yield from told.values()

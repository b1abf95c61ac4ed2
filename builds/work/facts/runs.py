"""When cars ran: told after their first session, or unanswered once the event is over; driven in a job."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import datetime

from django.db.models import QuerySet

from builds.work.engine.running import Run
from builds.work.models.job import Job, names_any
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.models import Entry, Event, Vehicle

DRIVEN = "driven"
RunsByCar = dict[int, list[Run]]


def unanswered(event: Event, at: datetime) -> QuerySet[Entry]:
    """Its cars of which nobody has said whether they ran, once it has begun."""
    return Entry.objects.may_have_run().filter(event=event, run=None, event__gates_at__lte=at)


def runs_of(vehicles: Iterable[Vehicle], at: datetime) -> RunsByCar:
    """Of each car (pk) that may have run by then; two queries.

    Written down after the event is over, it ran by the event's end. A car of which somebody said
    that it did not run, or that was withdrawn before the event began, has none there.
    """
    cars = list(vehicles)
    entries = Entry.objects.filter(vehicle__in=cars)
    unsaid = entries.may_have_run().filter(run=None, event__ends_at__lte=at)
    runs: dict[int, list[Run]] = defaultdict(list)
    asked = (entries.filter(run__ran=True) | unsaid).values_list(
        "vehicle_id", "event__name", "event__ends_at", "event__runs", "run__at"
    )
    for car, event, ends_at, count, told_at in asked:
        until = ends_at if ends_at <= at else None
        runs[car].append(Run(event, min(told_at or ends_at, ends_at), told_at is not None, count, until))
    for car, run in _driven(cars):
        runs[car].append(run)
    return runs


def _driven(cars: list[Vehicle]) -> Iterator[tuple[int, Run]]:
    """Runs in jobs, whatever became of these: until hands last left them, or from when they are in hand."""
    jobs = Job.objects.filter(vehicle__in=cars).with_texts().filter(names_any("kinds", [DRIVEN]))
    spans = Span.objects.filter(job__in=jobs).by_hands().order_by("job_id", "from_at")
    told: dict[int, tuple[int, Run]] = {}
    for job, car, title, state, begun, left in spans.values_list(
        "job_id", "job__vehicle_id", "job__title", "state", "from_at", "until_at"
    ):
        # Work that nobody started was over when it was finished.
        ended = left if state == State.IN_HAND and left else begun
        run = Run(title, ended, told=True, job=job)
        told[job] = max(told.get(job, (car, run)), (car, run), key=lambda known: known[1].since)
    yield from told.values()

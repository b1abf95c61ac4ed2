"""When cars ran: told after their first session, or unanswered once the event is over."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime

from django.db.models import QuerySet

from builds.work.engine.running import Run
from garage.models import Entry, Event, Vehicle

RunsByCar = dict[int, list[Run]]


def unanswered(event: Event, at: datetime) -> QuerySet[Entry]:
    """Its cars of which nobody has said whether they ran, once it has begun."""
    return Entry.objects.may_have_run().filter(event=event, run=None, event__gates_at__lte=at)


def runs_of(vehicles: Iterable[Vehicle], at: datetime) -> RunsByCar:
    """Of each car (pk) that may have run by then; one query.

    Written down after the event is over, it ran by the event's end. A car of which somebody said
    that it did not run, or that was withdrawn before the event began, has none there.
    """
    entries = Entry.objects.filter(vehicle__in=list(vehicles))
    unsaid = entries.may_have_run().filter(run=None, event__ends_at__lte=at)
    runs: dict[int, list[Run]] = defaultdict(list)
    asked = (entries.filter(run__ran=True) | unsaid).values_list(
        "vehicle_id", "event__name", "event__ends_at", "event__runs", "run__at"
    )
    for car, event, ends_at, count, told_at in asked:
        runs[car].append(Run(event, min(told_at or ends_at, ends_at), told_at is not None, count))
    return runs

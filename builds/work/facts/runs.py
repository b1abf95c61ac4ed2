"""When cars ran: told after their first session, or unanswered once the event is over."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime

from django.db.models import Q

from builds.work.engine.running import Run
from garage.models import Entry, Vehicle

RunsByCar = dict[int, list[Run]]


def runs_of(vehicles: Iterable[Vehicle], at: datetime) -> RunsByCar:
    """Of each car (pk) that may have run by then; one query.

    Written down after the event is over, it ran by the event's end. A car of which somebody said
    that it did not run, or that was withdrawn, has none there.
    """
    may_have = Q(run__ran=True) | Q(run=None, withdrawn_at=None, event__ends_at__lte=at)
    entries = Entry.objects.filter(may_have, vehicle__in=list(vehicles))
    runs: dict[int, list[Run]] = defaultdict(list)
    asked = entries.values_list("vehicle_id", "event__name", "event__ends_at", "event__runs", "run__at")
    for car, event, ends_at, count, told_at in asked:
        runs[car].append(Run(event, min(told_at or ends_at, ends_at), told_at is not None, count))
    return runs

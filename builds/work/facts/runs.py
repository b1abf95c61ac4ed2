"""When cars ran: told after their first session, or unanswered once the event is over."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime

from django.db.models import QuerySet

from builds.work.engine.running import Run
from garage.models import Entry, Event, Garage, Vehicle
from garage.remembered import remembered

RunsByCar = dict[int, list[Run]]
# Which car (pk), at which event, when it ends and how many runs it has there; when somebody said that it ran.
MayHaveRun = tuple[int, str, datetime, int, datetime | None]


def unanswered(event: Event, at: datetime) -> QuerySet[Entry]:
    """Its cars of which nobody has said whether they ran, once it has begun."""
    return Entry.objects.may_have_run().filter(event=event, run=None, event__gates_at__lte=at)


def runs_of(garage: Garage, vehicles: Iterable[Vehicle], at: datetime) -> RunsByCar:
    """Of each car (pk) that may have run by then; one query, none where it is remembered.

    Written down after the event is over, it ran by the event's end. A car of which somebody said
    that it did not run, or that was withdrawn before the event began, has none there.
    """
    asked = {vehicle.pk for vehicle in vehicles}
    runs: dict[int, list[Run]] = defaultdict(list)
    for car, event, ends_at, count, told_at in remembered(garage, "runs", lambda: _may_have_run(garage)):
        if car in asked and (told_at or ends_at <= at):
            runs[car].append(Run(event, min(told_at or ends_at, ends_at), told_at is not None, count))
    return runs


def _may_have_run(garage: Garage) -> list[MayHaveRun]:
    """Whatever the clock says."""
    entries = Entry.objects.in_garage(garage)
    rows = entries.filter(run__ran=True) | entries.may_have_run().filter(run=None)
    return list(rows.values_list("vehicle_id", "event__name", "event__ends_at", "event__runs", "run__at"))

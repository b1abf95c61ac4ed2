"""Events changed and deleted, with what hangs on whether their cars ran."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import QuerySet

from builds.packing.models import PackLog
from builds.scrutineering.actions import entries
from builds.scrutineering.actions.entries import on_record
from builds.work.facts.runs import unanswered
from builds.work.models.entry_run import EntryRun
from garage.actions import events
from garage.actions.refused import Refused
from garage.engine.words import listed_in_words
from garage.models import Entry, Event, Garage, Vehicle


@transaction.atomic
def add(garage: Garage, cars: Iterable[Vehicle], *, at: datetime, **fields: Any) -> Event:
    """A new event with those cars entered for it, none of more weight than another."""
    event = events.add(garage, **fields)
    for car in cars:
        entries.enter(event, car, at=at, weight=1)
    return event


@transaction.atomic
def change(event: Event, *, at: datetime, gates_at: datetime, ends_at: datetime, **fields: Any) -> None:
    """Raises Refused for other days of an event that has begun, while they say from when a car's readings are doubted.

    That its cars did not run was said of the days that it had: for days to come that is asked again.
    """
    if moved := _moved(event, gates_at, ends_at):
        _refuse_days(event, at, moved, ends_at)
    events.change(event, gates_at=gates_at, ends_at=ends_at, **fields)
    if moved and ends_at > at:
        EntryRun.objects.filter(entry__event=event, entry__withdrawn_at=None, ran=False).delete()


def _moved(event: Event, gates_at: datetime, ends_at: datetime) -> str:
    """The field of the first of its two moments that is another, to the minute; empty where both are the same."""
    for name, moment in (("gates_at", gates_at), ("ends_at", ends_at)):
        if moment.replace(second=0, microsecond=0) != getattr(event, name).replace(second=0, microsecond=0):
            return name
    return ""


def _refuse_days(event: Event, at: datetime, field: str, ends_at: datetime) -> None:
    """One that goes on may end otherwise, sooner even while its cars are asked about: that is asked the sooner."""
    goes_on = field == "ends_at" and min(event.ends_at, ends_at) > at
    if goes_on and ends_at < event.ends_at:
        return
    _refuse_unsaid(event, at, field)
    if not goes_on and (ran := _cars(event.entries.filter(run__ran=True))):
        raise Refused(f"{ran} ran at {event}: its days stay as they are.", field)


def _refuse_unsaid(event: Event, at: datetime, field: str = "") -> None:
    if left := _cars(unanswered(event, at)):
        line = f"{event} has begun, and nobody has said whether {left} ran there: that is said first."
        raise Refused(line, field)


def _cars(entries: QuerySet[Entry]) -> str:
    names = [entry.vehicle.name for entry in entries.select_related("vehicle")]
    return listed_in_words(names) if names else ""


@transaction.atomic
def take_out(event: Event, *, at: datetime) -> None:
    """Gone with its entries. Raises Refused where something that is written once would go with them.

    Where it has begun somebody has said first of each of its cars whether it ran there.
    """
    _refuse_unsaid(event, at)
    ticked = [entry for entry in event.entries.select_related("vehicle") if on_record(entry)]
    if ticked:
        cars = ", ".join(entry.vehicle.name for entry in ticked)
        raise Refused(f"Ticks of {cars} are on record for {event}: it stays. Its cars can be withdrawn.")
    if PackLog.objects.filter(item__packlist__event=event).exists():
        raise Refused(f"What was packed for {event} is on record: it stays. Its cars can be withdrawn.")
    event.delete()

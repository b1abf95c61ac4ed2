"""Cars that do not come after all, and those that come back."""

from datetime import datetime
from typing import Any

from django.db import transaction

from builds.scrutineering.models.check import CheckLog
from builds.work.facts.runs import unanswered
from builds.work.models.entry_run import EntryRun
from builds.work.models.job import Job
from garage.actions import events
from garage.actions.refused import Refused
from garage.models import Entry, Event, Membership, Vehicle


def on_record(entry: Entry) -> bool:
    """Whether anything was ticked for it, or it has run: that stays to be read."""
    ticks = CheckLog.objects.filter(item__checklist__entry=entry)
    return ticks.exists() or EntryRun.objects.filter(entry=entry).exists()


def asks(entry: Entry, at: datetime) -> bool:
    """Whether its event has begun and nobody has said whether it ran there."""
    return unanswered(entry.event, at).filter(pk=entry.pk).exists()


@transaction.atomic
def enter(event: Event, vehicle: Vehicle, *, at: datetime, **how: Any) -> Entry:
    """A car comes, or comes after all: that it did not run was said of what is not over yet, and holds no more."""
    entry = events.enter(event, vehicle, **how)
    if event.ends_at > at:
        EntryRun.objects.filter(entry=entry, ran=False).delete()
    return entry


@transaction.atomic
def stayed_still(entry: Entry, *, by: Membership, at: datetime) -> bool:
    """As `take_out`, of a car at an event that has begun, of which this says that it did not run there."""
    if not asks(entry, at):
        raise Refused(f"There is nothing to say yet of whether {entry.vehicle} ran at {entry.event}.", "ran")
    EntryRun.objects.create(entry=entry, ran=False, at=at, by=by)
    return take_out(entry, at=at)


@transaction.atomic
def take_out(entry: Entry, *, at: datetime) -> bool:
    """Deleted where nothing is on record, else withdrawn and True. Raises Refused for a car that has run.

    Once its event has begun somebody has to have said that it did not: what running changes hangs on that.
    What was to be done to the car there overnight is done at home.
    """
    if EntryRun.objects.filter(entry=entry).ran().exists():
        raise Refused(f"{entry.vehicle} has run at {entry.event}: it stays entered.")
    if asks(entry, at):
        raise Refused(f"{entry.event} has begun: say whether {entry.vehicle} ran there.", "ran")
    Job.objects.filter(vehicle=entry.vehicle_id, night__event=entry.event_id).update(night=None)
    if not on_record(entry):
        entry.delete()
        return False
    entry.withdrawn_at = at
    entry.save(update_fields=["withdrawn_at"])
    return True

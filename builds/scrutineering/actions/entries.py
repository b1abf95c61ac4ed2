"""Cars that do not come after all."""

from datetime import datetime

from django.db import transaction

from builds.scrutineering.models.check import CheckLog
from builds.work.models.entry_run import EntryRun
from builds.work.models.job import Job
from garage.actions.refused import Refused
from garage.models import Entry


def on_record(entry: Entry) -> bool:
    """Whether anything was ticked for it, or it has run: that stays to be read."""
    ticks = CheckLog.objects.filter(item__checklist__entry=entry)
    return ticks.exists() or EntryRun.objects.filter(entry=entry).exists()


@transaction.atomic
def take_out(entry: Entry, *, at: datetime) -> bool:
    """Deleted where nothing is on record, else withdrawn and True. Raises Refused for a car that has run.

    What was to be done to the car there overnight is done at home.
    """
    if EntryRun.objects.filter(entry=entry).ran().exists():
        raise Refused(f"{entry.vehicle} has run at {entry.event}: it stays entered.")
    Job.objects.filter(vehicle=entry.vehicle_id, night__event=entry.event_id).update(night=None)
    if not on_record(entry):
        entry.delete()
        return False
    entry.withdrawn_at = at
    entry.save(update_fields=["withdrawn_at"])
    return True

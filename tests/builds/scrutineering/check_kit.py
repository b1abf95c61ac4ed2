"""What the tests of scrutineering and of packing set up again and again."""

import uuid
from datetime import timedelta

from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.models.check import CheckItem
from tests.factories import NOW, EntryFactory, JobFactory, SpanFactory, VehicleFactory


def entered(cast, **fields):
    """A car of the cast's garage, entered for an event in ten days."""
    vehicle = VehicleFactory(garage=cast.garage, name=fields.pop("name", "Moth"))
    return EntryFactory(vehicle=vehicle, event__garage=cast.garage, **fields)


def made(cast, **fields):
    return check_lists.make(entered(cast, **fields), by=cast.owner, at=NOW)


def item_of(checklist, key):
    return CheckItem.objects.get(checklist=checklist, key=key)


def tap(item, step, by, minutes=0, **more):
    """A tap so many minutes after NOW, with a key of its own unless one is given."""
    more.setdefault("key", uuid.uuid4())
    return checks.take(item, step, by=by, at=NOW + timedelta(minutes=minutes), **more)


def worked(vehicle, title, systems, ended, **fields):
    """A job that was in hand for an hour and finished at `ended`."""
    job = JobFactory(vehicle=vehicle, title=title, systems=systems, state="signed", finished_at=ended, **fields)
    SpanFactory(job=job, from_at=ended - timedelta(hours=1), until_at=ended)
    return job

"""Hours at an event in which cars are repaired overnight."""

from datetime import datetime

from garage.models import Event, Night


def add(event: Event, *, from_at: datetime, until_at: datetime, due_at: datetime) -> Night:
    return Night.objects.create(event=event, from_at=from_at, until_at=until_at, due_at=due_at)


def change(night: Night, *, from_at: datetime, until_at: datetime, due_at: datetime) -> None:
    night.from_at, night.until_at, night.due_at = from_at, until_at, due_at
    night.save(update_fields=["from_at", "until_at", "due_at"])


def remove(night: Night) -> None:
    """Its jobs are done at home again."""
    night.delete()

"""Addresses of the nights of an event and of jobs done then, and one row of each."""

from datetime import timedelta

from garage.models import Night
from tests.factories import EventFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "night_add": ("event", "ARRANGES", "form"),
    "night_edit": ("night", "ARRANGES", "form"),
    "night_delete": ("night", "ARRANGES", "send"),
    "job_night": ("job", "WORKS", "send"),
}


def rows(cast):
    event = EventFactory(garage=cast.garage)
    begins = event.gates_at + timedelta(hours=1)
    hours = {"from_at": begins, "until_at": begins + timedelta(hours=2), "due_at": begins + timedelta(hours=8)}
    return {"night": Night.objects.create(event=event, **hours).pk}

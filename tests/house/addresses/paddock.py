"""Addresses of the event's day without signal, and one row of each thing that they name."""

from tests.factories import EntryFactory, EventFactory, VehicleFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "paddock_manifest": ("", "OPEN", "read"),
    "paddock_worker": ("", "OPEN", "read"),
    "paddock_list": ("", "READS_OWN", "read"),
    "paddock_page": ("event", "READS", "read"),
    "paddock_state": ("event", "READS", "read"),
    "paddock_write": ("event", "WORKS", "send"),
    "paddock_item": ("paddock_item", "READS", "read"),
}


def rows(cast):
    event = EventFactory(garage=cast.garage)
    entry = EntryFactory(event=event, vehicle=VehicleFactory(garage=cast.garage))
    return {"paddock_item": (event.pk, f"note-{entry.pk}")}

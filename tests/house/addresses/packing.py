"""Addresses of pack lists, and one row of each thing that they name."""

from builds.packing import actions as packing
from tests.factories import NOW, EntryFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "pack_list": ("event", "READS", "read"),
    "pack_make": ("event", "WORKS", "send"),
    "pack_add": ("packed_event", "WORKS", "form"),
    "pack_tick": ("pack", "WORKS", "send"),
    "pack_remove": ("pack", "WORKS", "send"),
}


def rows(cast):
    event = EntryFactory(event__garage=cast.garage).event
    packlist = packing.make(event, by=cast.owner, at=NOW)
    return {"packed_event": event.pk, "pack": packlist.items.first().pk}

"""Addresses of what fits what, and one row of each thing that they name."""

from tests.parts.factories import PartFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "interface_add": ("part_kind", "WORKS", "form"),
    "interface_delete": ("threaded", "WORKS", "send"),
    "fit_search": ("", "READS_OWN", "read"),
}


def rows(cast):
    kept = [{"kind": "thread", "thread": "M12×1.25", "side": "internal"}]
    part = PartFactory(garage=cast.garage, interfaces=kept)
    return {"part_kind": (part.pk, "thread"), "threaded": part.pk}

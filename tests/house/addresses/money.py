"""Addresses of what it cost, and one row of each thing that they name."""

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "money_page": ("", "ARRANGES_OWN", "read"),
    "money_used": ("", "ARRANGES_OWN", "send"),
    "money_vehicle": ("vehicle", "ARRANGES", "form"),
    "money_event": ("event", "ARRANGES", "form"),
}


def rows(cast):
    return {}

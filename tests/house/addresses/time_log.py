"""Addresses of what the log of hours says, and one row of each thing that they name."""

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "log_page": ("", "READS_OWN", "read"),
    "log_count": ("", "ARRANGES_OWN", "send"),
}


def rows(cast):
    return {}

"""Addresses of labels, and one row of each thing that they name."""

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "label_list": ("", "READS_OWN", "read"),
    "label_sheet": ("", "READS_OWN", "read"),
}


def rows(cast):
    return {}

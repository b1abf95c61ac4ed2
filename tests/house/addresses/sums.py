"""Addresses of the bench sums."""

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "sum_list": ("", "READS_OWN", "read"),
    "sum_page": ("sum", "READS_OWN", "read"),
}


def rows(cast):
    return {"sum": "corner-weights"}

"""Addresses of the shelf as a spreadsheet, and one row of each thing that they name."""

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "stock_book_csv": ("", "READS_OWN", "read"),
    "stock_book_xlsx": ("", "READS_OWN", "read"),
}


def rows(cast):
    return {}

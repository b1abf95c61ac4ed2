"""Addresses of the shelf as a spreadsheet, and one row of each thing that they name."""

from parts.models import Batch, BatchRow
from tests.factories import NOW

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "stock_book_csv": ("", "READS_OWN", "read"),
    "stock_book_xlsx": ("", "READS_OWN", "read"),
    "batch_add": ("", "ARRANGES_OWN", "form"),
    "batch_page": ("batch", "ARRANGES", "read"),
    "batch_columns": ("batch", "ARRANGES", "form"),
    "batch_progress": ("batch", "ARRANGES", "read"),
    "batch_check": ("batch", "ARRANGES", "send"),
    "batch_write": ("batch", "ARRANGES", "send"),
    "batch_leave": ("batch", "ARRANGES", "send"),
    "batch_row": ("batch_row", "ARRANGES", "form"),
    "batch_row_drop": ("batch_row", "ARRANGES", "send"),
}


def rows(cast):
    batch = Batch.objects.create(
        garage=cast.garage, by=cast.owner, file_name="shelf.csv", state="checked", total=1,
        headings=["name"], columns={"name": 0}, made_at=NOW, seen_at=NOW,
    )  # fmt: skip
    row = BatchRow.objects.create(batch=batch, line=2, cells=["Hub"], kind="new", group="new")
    return {"batch": batch.pk, "batch_row": row.pk}

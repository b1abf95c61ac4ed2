"""A sheet on its way to the shelf as its page shows it."""

from dataclasses import dataclass
from datetime import datetime

from django.core.paginator import Page, Paginator

from parts.engine.book import COLUMNS, by_column
from parts.models import Batch, BatchRow, Place

A_PAGE = 25
KINDS = {
    "bad": "Bad",
    "new": "New",
    "changes": "Changed",
    "same": "Same as on the shelf",
}
DOING = {"checking": "Looking through the rows", "writing": "Writing to the shelf, all at once"}


@dataclass(frozen=True)
class RowLine:
    """`wrong` pairs a column with why; `changes` are labels of columns."""

    row: BatchRow
    title: str
    more: tuple[str, ...]
    wrong: tuple[tuple[str, str], ...]
    changes: tuple[str, ...]


@dataclass(frozen=True)
class BatchView:
    """`running` while a process works on it; `silent` when that process is gone."""

    batch: Batch
    running: bool
    silent: bool
    doing: str
    kinds: tuple[tuple[str, str, int], ...]
    shown: str
    lines: tuple[RowLine, ...]
    page: Page | None
    new_places: tuple[str, ...]
    bad: int
    to_write: int


def batch_view(batch: Batch, asked: str, number: str | None, at: datetime) -> BatchView:
    """The same few queries for any sheet; `asked` is a kind of row, `number` a page of them."""
    tally = batch.tally if batch.state == "checked" or batch.state == "done" else {}
    kinds = tuple((kind, label, tally.get(kind, 0)) for kind, label in KINDS.items())
    first = next((kind for kind, _, many in kinds if many), "new")
    shown = asked if asked in KINDS else first
    gone = batch.silent(at)
    page = None
    if batch.state == "checked":
        rows = BatchRow.objects.of(batch).filter(kind=shown)
        page = Paginator(rows, A_PAGE).get_page(number)
    return BatchView(
        batch,
        batch.state in DOING and not gone,
        gone,
        DOING.get(batch.state, ""),
        kinds,
        shown,
        tuple(row_line(line, batch) for line in page.object_list) if page else (),
        page,
        _new_places(batch) if batch.state == "checked" else (),
        tally.get("bad", 0),
        tally.get("new", 0) + tally.get("changes", 0),
    )


def row_line(row: BatchRow, batch: Batch) -> RowLine:
    cells = by_column(row.cells, batch.columns)
    spot = cells.get("place", "")
    many = cells.get("quantity", "")
    more = (cells.get("number", ""), f"{many} at {spot}" if many and spot else many or spot)
    return RowLine(
        row,
        cells.get("name") or cells.get("code") or "no name",
        tuple(word for word in more if word),
        tuple((COLUMNS[column].label, why) for column, why in row.problems),
        tuple(COLUMNS[column].label for column in row.changes),
    )


def _new_places(batch: Batch) -> tuple[str, ...]:
    """Names in the place column that no place has: shelves to be made, or a slip of the pen."""
    position = batch.columns.get("place")
    if position is None:
        return ()
    there = {name.casefold() for pair in _names(batch) for name in pair}
    rows = BatchRow.objects.of(batch).filter(kind="new").order_by()
    names = rows.values_list(f"cells__{position}", flat=True).distinct()
    return tuple(sorted(name for name in names if name and name.casefold() not in there))


def _names(batch: Batch) -> list[tuple[str, str]]:
    return list(Place.objects.in_garage(batch.garage).values_list("name", "code"))

"""The stock book as a file: CSV as in RFC 4180, or a workbook of plain cells."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

from garage.engine.cells import guarded
from parts.pages.stock_book import Cell


def book_csv(columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """With the mark by which spreadsheets know UTF-8."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(columns)
    for cells in rows:
        writer.writerow([guarded(cell) if isinstance(cell, str) else cell for cell in cells])
    return text.getvalue().encode("utf-8-sig")


def book_xlsx(columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """Text cells are marked as text, so that 0012 and 1E5 stay what they are."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Shelf")
    sheet.freeze_panes = "A2"
    sheet.append(list(columns))
    for cells in rows:
        sheet.append([_text(sheet, cell) if isinstance(cell, str) else cell for cell in cells])
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def _text(sheet: object, text: str) -> WriteOnlyCell | None:
    if not text:
        return None
    cell = WriteOnlyCell(sheet, ILLEGAL_CHARACTERS_RE.sub("\N{REPLACEMENT CHARACTER}", guarded(text)))
    cell.data_type, cell.number_format = "s", "@"
    return cell

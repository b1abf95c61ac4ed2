"""A table read from an XLSX workbook, which may be a trap: sizes are looked at before its cells."""

import io
import zipfile
from collections.abc import Iterator
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any
from xml.etree.ElementTree import ParseError

from openpyxl import load_workbook

from parts.engine.table import MOST_BYTES, Table, TableError, table_of

MOST_UNPACKED = 100 * 1024 * 1024
MOST_MEMBERS = 500
LAST_ROW = 1_048_576  # of a sheet, in ECMA-376's own limit as programs keep it
MARK = b"PK\x03\x04"
UNREADABLE = "The workbook cannot be read: save it again as XLSX, or as CSV."


def read_workbook(data: bytes) -> Table:
    """The first sheet that is seen. Values as they were last worked out; no formula is run."""
    if len(data) > MOST_BYTES:
        raise TableError("The file is larger than 5 MB: split it.")
    try:
        _refuse_traps(data)
        book = load_workbook(
            io.BytesIO(data), read_only=True, data_only=True, keep_links=False, rich_text=False
        )
        sheet = next((each for each in book.worksheets if each.sheet_state == "visible"), None)
        if sheet is None:
            raise TableError("The workbook has no sheet with rows.")
        return table_of(_records(sheet))
    except TableError:
        raise
    except (
        zipfile.BadZipFile, ParseError, KeyError, ValueError, TypeError, IndexError,
        AttributeError, EOFError, OSError, OverflowError, NotImplementedError, RuntimeError,
    ):  # fmt: skip
        raise TableError(UNREADABLE) from None


def _refuse_traps(data: bytes) -> None:
    """A member never unpacks to more than it says, so what they say in sum is the bound."""
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        members = packed.infolist()
        if len(members) > MOST_MEMBERS or sum(each.file_size for each in members) > MOST_UNPACKED:
            raise TableError("The workbook unpacks to more than 100 MB: save it as CSV.")
        for member in members:
            if member.filename.endswith((".xml", ".rels")):
                with packed.open(member) as part:
                    # XML of a workbook declares no entities; one that does wants to grow.
                    if b"<!DOCTYPE" in part.read(4096).replace(b"\0", b"").upper():
                        raise TableError(UNREADABLE)


def _records(sheet: Any) -> Iterator[tuple[int, list[str]]]:
    sheet.reset_dimensions()  # what the file says of its own size may be wrong
    for line, row in enumerate(sheet.iter_rows(values_only=True), 1):
        if line > LAST_ROW:
            raise TableError(f"Line {LAST_ROW}: the sheet goes on below it.")
        yield line, [_cell(value) for value in row]


def _cell(value: Any) -> str:
    """A number as it was typed as far as that is known: no exponent, no trailing zeros."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        figure = format(Decimal(repr(value)), "f")
        return figure.rstrip("0").rstrip(".") if "." in figure else figure
    if isinstance(value, datetime) and value.time() == time.min:
        return value.date().isoformat()
    if isinstance(value, date | time):
        return value.isoformat()
    return str(value)

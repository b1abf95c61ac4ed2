"""A table read from an XLSX workbook, which may be a trap: sizes are looked at before its cells."""

import io
import zipfile
import zlib
from collections.abc import Iterator
from datetime import date, datetime, time
from decimal import Decimal
from typing import IO, Any
from xml.etree.ElementTree import ParseError
from xml.parsers import expat

from openpyxl import load_workbook

from parts.engine.table import MOST_BYTES, SheetTable, TableError, table_of

MOST_UNPACKED = 64 * 1024 * 1024
MOST_MEMBERS = 500
MOST_ELEMENTS = 3_000_000  # 20,000 rows of 64 cells, each with its value, and some to spare
LAST_ROW, LAST_COLUMN = 1_048_576, 16_384  # of a sheet, as the programs in use have them
MARK = b"PK\x03\x04"
# What a package that was cut short or tampered with makes of its readers.
BROKEN = (
    zipfile.BadZipFile, zlib.error, ParseError, expat.ExpatError, LookupError, ValueError,
    TypeError, AttributeError, EOFError, OSError, ArithmeticError, RuntimeError, AssertionError,
)  # fmt: skip
UNREADABLE = "The workbook cannot be read: save it again as XLSX, or as CSV."


def read_workbook(data: bytes) -> SheetTable:
    """The first sheet that is seen. Values as they were last worked out; no formula is run."""
    if len(data) > MOST_BYTES:
        raise TableError("The file is larger than 5 MB: split it.")
    try:
        _refuse_traps(data)
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True, keep_links=False, rich_text=False)
        sheet = next((tab for tab in book.worksheets if tab.sheet_state == "visible"), None)
        if sheet is None:
            raise TableError("The workbook has no sheet with rows.")
        return table_of(_records(sheet))
    except TableError:
        raise
    except BROKEN:
        raise TableError(UNREADABLE) from None


def _refuse_traps(data: bytes) -> None:
    """A member never unpacks to more than it says, so what they say in sum is the bound."""
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        members = packed.infolist()
        if len(members) > MOST_MEMBERS or sum(member.file_size for member in members) > MOST_UNPACKED:
            raise TableError("The workbook unpacks to more than 64 MB: save it as CSV.")
        left = MOST_ELEMENTS
        for member in members:
            if member.filename.endswith((".xml", ".rels")):
                with packed.open(member) as part:
                    left -= _elements(part, left)


def _elements(part: IO[bytes], most: int) -> int:
    """How many elements an XML file has, told before anything is built of them."""
    elements = in_row = 0

    def start(name: str, attributes: object) -> None:
        nonlocal elements, in_row
        elements += 1
        kind = name.rpartition(":")[2]
        in_row = 0 if kind == "row" else in_row + (kind == "c")
        if elements > most or in_row > LAST_COLUMN:
            raise TableError("The workbook has far more cells than a shelf: save it as CSV.")

    def doctype(*args: object) -> None:
        raise TableError(UNREADABLE)  # only what wants to grow declares entities in a workbook

    parser = expat.ParserCreate()
    parser.StartElementHandler = start
    parser.StartDoctypeDeclHandler = doctype
    parser.ParseFile(part)
    return elements


def _records(sheet: Any) -> Iterator[tuple[int, list[str]]]:
    sheet.reset_dimensions()  # what the file says of its own size may be wrong
    for line, cells in enumerate(sheet.iter_rows(values_only=True), 1):
        if line > LAST_ROW:
            raise TableError(f"Line {LAST_ROW}: the sheet goes on below it.")
        yield line, [_cell(value) for value in cells]


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

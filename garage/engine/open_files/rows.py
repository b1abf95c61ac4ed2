"""A row in the open files: an object a line in JSON, a line of cells in CSV."""

import csv
import io
import json
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from typing import Any

from garage.engine.backup.values import KINDS, MOST_LINE
from garage.engine.cells import guarded

LARGEST = 2**63
OPENS, CLOSES = b"[\n", b"]\n"
Row = Sequence[Any]


def json_pieces(columns: dict[str, str], rows: Iterable[Row]) -> Iterator[bytes]:
    """A JSON list with one object a line: `columns` gives the kind of each column, in the order of the rows' cells.

    ValueError when a row is too long to be read back.
    """
    yield OPENS
    before: bytes | None = None
    for cells in rows:
        if before is not None:
            yield before + b",\n"
        before = json.dumps(_said(columns, cells), ensure_ascii=False, allow_nan=False).encode()
        if len(before) > MOST_LINE - 2:
            raise ValueError(f"a row of {len(before)} bytes is longer than {MOST_LINE}")
    if before is not None:
        yield before + b"\n"
    yield CLOSES


def row_of_json(columns: dict[str, str], line: bytes) -> list[Any]:
    """The cells of a line that `json_pieces` wrote; ValueError, TypeError or ArithmeticError for any other."""
    told = json.loads(line.removesuffix(b"\n").removesuffix(b","))
    if not isinstance(told, dict) or list(told) != list(columns):
        raise ValueError("a row has other columns")
    return [None if cell is None else _read(columns[name], cell) for name, cell in told.items()]


def csv_pieces(columns: dict[str, str], rows: Iterable[Row]) -> Iterator[bytes]:
    """CSV as in RFC 4180, with the mark by which spreadsheets know UTF-8; what they would run is guarded."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(columns)
    yield out.getvalue().encode("utf-8-sig")
    for cells in rows:
        out.seek(0)
        out.truncate()
        writer.writerow([_cell(value) for value in _said(columns, cells).values()])
        yield out.getvalue().encode()


def _said(columns: dict[str, str], row: Row) -> dict[str, Any]:
    cells = zip(columns.items(), row, strict=True)
    return {name: None if cell is None else KINDS[kind][0](cell) for (name, kind), cell in cells}


def _cell(value: Any) -> Any:
    if isinstance(value, (list, dict, bool)):
        value = json.dumps(value, ensure_ascii=False)
    return guarded(value) if isinstance(value, str) else value


def _read(kind: str, cell: Any) -> Any:
    value = KINDS[kind][1](cell)
    if kind == "integer" and (type(cell) is not int or not -LARGEST <= cell < LARGEST):
        raise ValueError("a number that no database keeps")
    if kind == "boolean" and type(cell) is not bool:
        raise ValueError("neither true nor false")
    if kind in ("text", "json"):
        _refuse_unwritable(cell)
    if kind == "moment" and value.tzinfo is None:
        raise ValueError("a moment without its zone")
    if isinstance(value, (date, datetime)) and not 1 < value.year < 9999:
        raise ValueError("a day at the end of all days")
    return value


def _refuse_unwritable(cell: Any) -> None:
    """ValueError for half a letter, for NUL, and for text that is none."""
    text = cell if isinstance(cell, str) else json.dumps(cell, ensure_ascii=False, allow_nan=False)
    text.encode()
    if "\0" in text or "\\u0000" in text:
        raise ValueError("a text with NUL in it")

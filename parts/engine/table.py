"""A table read from a file: headings, rows with the line that each begins on, limits."""

import csv
import io
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from garage.engine.words import seen_text

MOST_BYTES = 5 * 1024 * 1024
MOST_ROWS = 20_000
MOST_COLUMNS = 64
MOST_LETTERS = 4_000
BREAK = re.compile(r"\r\n|\r|\n")
DELIMITERS = ",;\t"
UNCLOSED = "a quoted cell is not closed as it should be"


class TableError(ValueError):
    """One sentence that says what is wrong with the file and on which line."""


@dataclass(frozen=True, slots=True)
class SheetTable:
    """Cells are trimmed text, as many in a row as there are headings; lines count from 1."""

    headings: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


def read_csv(data: bytes) -> SheetTable:
    """A table from the bytes of a CSV file. Raises TableError.

    UTF-8, UTF-16 (with or without its mark) or Latin-1; comma, semicolon or tab between the
    cells, whichever the headings use; lines end in LF, CRLF or CR. Quoting as in RFC 4180.
    """
    if len(data) > MOST_BYTES:
        raise TableError("The file is larger than 5 MB: split it.")
    text = _decoded(data)
    nul = text.find("\0")
    if nul >= 0:
        raise TableError(f"Line {_line(text, nul)}: there is a NUL character in it.")
    return table_of(_records(text))


def table_of(records: Iterable[tuple[int, list[str]]]) -> SheetTable:
    """The table of (line, cells) records, the first with anything in it being the headings.

    Raises TableError for what goes beyond the limits, for cells under no heading and for
    headings that are there twice.
    """
    headings: tuple[str, ...] = ()
    head_line = 0
    rows: list[tuple[int, tuple[str, ...]]] = []
    for line, raw in records:
        cells = _cells(line, raw)
        if not any(cells):
            continue
        if not head_line:
            head_line, headings = line, _headings(line, cells)
            continue
        if len(rows) == MOST_ROWS:
            raise TableError(f"Line {line}: there are more than 20,000 rows: split the file.")
        rows.append((line, _under(headings, head_line, line, cells)))
    if not head_line:
        raise TableError("Line 1: the file is empty.")
    if not rows:
        raise TableError(f"Line {head_line}: there is no row below the headings.")
    return SheetTable(headings, tuple(rows))


def _cells(line: int, raw: list[str]) -> list[str]:
    cells = [seen_text(cell).strip() for cell in raw]
    while cells and not cells[-1]:
        cells.pop()
    if len(cells) > MOST_COLUMNS:
        raise TableError(f"Line {line}: it has more than 64 columns.")
    for column, cell in enumerate(cells, 1):
        if len(cell) > MOST_LETTERS:
            raise TableError(f"Line {line}, column {column}: more than 4,000 characters; is a quote left open?")
    return cells


def _headings(line: int, cells: list[str]) -> tuple[str, ...]:
    seen: set[str] = set()
    for cell in cells:
        if cell and cell.casefold() in seen:
            raise TableError(f"Line {line}: the heading “{cell[:60]}” is there twice.")
        seen.add(cell.casefold())
    return tuple(cells)


def _under(headings: tuple[str, ...], head_line: int, line: int, cells: list[str]) -> tuple[str, ...]:
    for column, cell in enumerate(cells, 1):
        if cell and not (column <= len(headings) and headings[column - 1]):
            raise TableError(
                f"Line {line}: column {column} holds “{cell[:30]}”, but line {head_line} has no heading for it."
            )
    return tuple(cells) + ("",) * (len(headings) - len(cells))


def _decoded(data: bytes) -> str:
    try:
        if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
            return data.decode("utf-16")
        # Text in UTF-16 without its mark: every other byte of plain letters is zero.
        for start, name in ((1, "utf-16-le"), (0, "utf-16-be")):
            half = data[:4000][start::2]
            if len(half) > 4 and half.count(0) > 0.7 * len(half):
                return data.decode(name)
    except UnicodeDecodeError:
        raise TableError("Line 1: it looks like UTF-16, but cannot be read as that.") from None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        pass
    try:
        return data.decode("cp1252")  # Latin-1 with the quotes and dashes of office programs
    except UnicodeDecodeError:
        return data.decode("latin-1")


def _line(text: str, position: int) -> int:
    return len(BREAK.findall(text[:position])) + 1


def _records(text: str) -> Iterator[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True, doublequote=True)
    while True:
        line = reader.line_num + 1
        try:
            yield line, next(reader)
        except StopIteration:
            return
        except csv.Error as wrong:
            large = "field limit" in str(wrong)
            said = "a cell has more than 4,000 characters" if large else UNCLOSED
            raise TableError(f"Line {line}: {said}.") from None


def _delimiter(text: str) -> str:
    """Whichever cuts the first line that is not empty into the most cells."""
    first = next((line for line in BREAK.split(text[:100_000]) if line.strip()), "")
    return max(DELIMITERS, key=lambda mark: len(next(csv.reader([first], delimiter=mark), [])))

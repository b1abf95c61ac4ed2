"""The stock book: the shelf as a table, its columns and what their cells mean."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from garage.engine.cells import unguarded
from garage.engine.money import MoneyError, parse_money
from garage.engine.systems import SYSTEM_LABELS
from parts.engine.table import BREAK

MOST = 1_000_000_000
CODE_LETTERS = frozenset("23456789ABCDEFGHJKLMNPQRSTUVWXYZ")
KINDS = {"counted": (False, False), "one of a kind": (True, False), "used once": (False, True)}
UNITS = {"piece": "piece", "pieces": "piece", "pcs": "piece", "ml": "ml", "g": "g", "mm": "mm"}
CONDITIONS = {
    "new": "new", "good": "good", "used, good": "good", "used": "unknown", "unknown": "unknown",
    "used, unknown": "unknown", "repair": "repair", "to repair": "repair", "scrap": "scrap",
}  # fmt: skip
SYSTEMS = {slug: slug for slug in SYSTEM_LABELS} | {label.casefold(): slug for slug, label in SYSTEM_LABELS.items()}


class CellError(ValueError):
    """One sentence about a cell that cannot be read."""


@dataclass(frozen=True, slots=True)
class BookColumn:
    """`slug` is its heading in our own book; `others` are headings that mean the same."""

    slug: str
    label: str
    read: Callable[[str], Any]
    others: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BookFault:
    column: str
    why: str


def _text(most: int) -> Callable[[str], str]:
    def read(cell: str) -> str:
        if len(cell) > most:
            raise CellError(f"It has {len(cell)} characters; {most} is the most.")
        return cell

    return read


def _code(cell: str) -> str:
    code = cell.upper()
    if code and not (len(code) == 10 and set(code) <= CODE_LETTERS):
        raise CellError("Our codes have ten letters and figures, without I, O, 0 and 1.")
    return code


def _one_of(words: Mapping[str, Any], names: str, empty: str) -> Callable[[str], Any]:
    def read(cell: str) -> Any:
        try:
            return words[cell.casefold() or empty]
        except KeyError:
            raise CellError(f"Write {names}, not “{cell[:40]}”.") from None

    return read


def _whole(cell: str) -> int | None:
    if not cell:
        return None
    figures = cell.removesuffix(".0")
    if not (figures.isascii() and figures.isdecimal()):
        raise CellError(f"Write a whole number of zero or more, not “{cell[:40]}”.")
    if len(figures) > 10 or int(figures) > MOST:
        raise CellError("It is more than a thousand million.")
    return int(figures)


def _cost(cell: str) -> int | None:
    try:
        return parse_money(cell) if cell else None
    except MoneyError as wrong:
        raise CellError(str(wrong)) from wrong


def _systems(cell: str) -> tuple[str, ...]:
    slugs = []
    for word in cell.replace(",", ";").split(";"):
        if not word.strip():
            continue
        slug = SYSTEMS.get(word.strip().casefold())
        if slug is None:
            raise CellError(f"No system is called “{word.strip()[:40]}”.")
        slugs.append(slug)
    return tuple(dict.fromkeys(slugs))


def one_break(text: str) -> str:
    """Text with LF alone between its lines: forms send CRLF, workbooks keep LF."""
    return BREAK.sub("\n", text)


def _note(cell: str) -> str:
    return _text(2000)(one_break(cell))


COLUMNS: dict[str, BookColumn] = {
    column.slug: column
    for column in (
        BookColumn("code", "our code", _code, ("label",)),
        BookColumn("name", "what it is", _text(120), ("part", "part name", "item", "description")),
        BookColumn("number", "maker's or own number", _text(60),
               ("part number", "part no", "part no.", "no.", "reference")),
        BookColumn("kind", "counted, one of a kind or used once",
               _one_of(KINDS, "counted, one of a kind or used once", "counted"), ("type",)),
        BookColumn("unit", "counted in", _one_of(UNITS, "piece, ml, g or mm", "piece")),
        BookColumn("condition", "condition",
               _one_of(CONDITIONS, "new, good, unknown, repair or scrap", "unknown"), ("state",)),
        BookColumn("quantity", "how many or how much", _whole,
               ("qty", "count", "amount", "stock", "how many")),
        BookColumn("place", "where it lies", _text(60), ("location", "where", "shelf", "bin")),
        BookColumn("systems", "systems it is part of", _systems, ("system",)),
        BookColumn("cost", "cost of one", _cost, ("price", "unit cost", "unit price", "cost of one")),
        BookColumn("supplier", "bought from", _text(80), ("vendor", "bought from", "from")),
        BookColumn("provenance", "where it came from", _text(200), ("where it came from", "origin")),
        BookColumn("low level", "buy when fewer than", _whole,
               ("minimum", "min", "low", "reorder level")),
        BookColumn("note", "note", _note, ("notes", "comment", "comments", "remarks")),
    )
}  # fmt: skip
GUESSES = {word: slug for slug, column in COLUMNS.items() for word in (slug, *column.others)}


class BookPart(Protocol):
    """A part as a row of the book tells it, what is where left out."""

    name: str
    number: str
    single: bool
    one_use: bool
    unit: str
    condition: str
    systems: Sequence[str]
    cost_minor: int | None
    supplier: str
    provenance: str
    low_level: int | None
    note: str


def part_values(part: BookPart) -> dict[str, Any]:
    """What the cells of its row mean, by column slug, as `read_row` has them."""
    return {
        "name": part.name,
        "number": part.number,
        "kind": (part.single, part.one_use),
        "unit": part.unit,
        "condition": part.condition,
        "systems": tuple(part.systems),
        "cost": part.cost_minor,
        "supplier": part.supplier,
        "provenance": part.provenance,
        "low level": part.low_level,
        "note": one_break(part.note),
    }


def by_column(cells: Sequence[str], columns: Mapping[str, int]) -> dict[str, str]:
    """The cells of a row by column slug, of the columns (at their positions) that the file has."""
    return {slug: cells[position] for slug, position in columns.items()}


def heading_key(heading: str) -> str:
    """As headings are compared: whatever their case, spaces and underlines."""
    return " ".join(heading.replace("_", " ").split()).casefold()


def guess(headings: Sequence[str], said: Mapping[str, str]) -> dict[str, int]:
    """Which heading (its position) is which column, each at most once, the first that fits.

    `said` is what somebody said of such headings (`heading_key`) before: a column's slug, or nothing for none.
    """
    columns: dict[str, int] = {}
    for position, heading in enumerate(headings):
        words = heading_key(heading)
        slug = said.get(words, GUESSES.get(words))
        if slug and slug not in columns:
            columns[slug] = position
    return columns


def read_row(said: Mapping[str, str]) -> tuple[dict[str, Any], tuple[BookFault, ...]]:
    """What the cells of one row mean, by column slug, and what is wrong with the others.

    `said` has the columns that the file has and no other: what it does not say stays as it is.
    """
    values: dict[str, Any] = {}
    wrong = []
    for slug, cell in said.items():
        try:
            values[slug] = COLUMNS[slug].read(unguarded(cell))
        except CellError as problem:
            wrong.append(BookFault(slug, str(problem)))
    return values, tuple(wrong)

"""Values of columns in JSON: what JSON has stands as it is, the rest as plain text."""

import base64
import json
import math
from collections.abc import Callable, Iterable, Sequence
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from hashlib import sha256
from typing import Any
from uuid import UUID

# In bytes; a longer line is no row of ours, and reading it would take the memory of the machine.
MOST_LINE = 64 * 1024**2


def _as_is(value: Any) -> Any:
    return value


def _float_out(value: float) -> float | str:
    """JSON has no words for what is not a number."""
    return value if math.isfinite(value) else str(value)


def _moment_out(value: datetime) -> str:
    return value.astimezone(UTC).isoformat()


def _bytes_out(value: bytes | memoryview) -> str:
    return base64.b64encode(bytes(value)).decode("ascii")


def _bytes_in(text: str) -> bytes:
    return base64.b64decode(text, validate=True)


def _duration_in(text: str) -> timedelta:
    days, seconds, micro = (int(figure) for figure in text.split())
    return timedelta(days, seconds, micro)


def _duration_out(value: timedelta) -> str:
    return f"{value.days} {value.seconds} {value.microseconds}"


# By kind of column: how a value goes out, how it comes back.
KINDS: dict[str, tuple[Callable[[Any], Any], Callable[[Any], Any]]] = {
    "integer": (int, int),
    "boolean": (bool, bool),
    "text": (str, str),
    "json": (_as_is, _as_is),
    "float": (_float_out, float),
    "decimal": (str, Decimal),
    "date": (date.isoformat, date.fromisoformat),
    "time": (time.isoformat, time.fromisoformat),
    "moment": (_moment_out, datetime.fromisoformat),
    "duration": (_duration_out, _duration_in),
    "uuid": (str, UUID),
    "bytes": (_bytes_out, _bytes_in),
}


def line_of(kinds: Sequence[str], row: Sequence[Any]) -> bytes:
    """A row as one line of JSON, ended by a line break; ValueError if it is too long to be read back."""
    cells = [None if value is None else KINDS[kind][0](value) for kind, value in zip(kinds, row, strict=True)]
    line = json.dumps(cells, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode() + b"\n"
    if len(line) > MOST_LINE:
        raise ValueError(f"a row of {len(line)} bytes is longer than {MOST_LINE}")
    return line


def row_of(kinds: Sequence[str], line: bytes) -> list[Any]:
    """The values of a line that `line_of` wrote; ValueError, TypeError or ArithmeticError for any other."""
    cells = json.loads(line)
    if not isinstance(cells, list):
        raise ValueError("a row is a list")
    return [None if cell is None else KINDS[kind][1](cell) for kind, cell in zip(kinds, cells, strict=True)]


def rows_digest(kinds: Sequence[str], rows: Iterable[Sequence[Any]]) -> tuple[int, str]:
    """How many rows, and the SHA-256 of what they say: the same whichever database keeps them.

    PostgreSQL keeps the keys of a JSON object in an order of its own, and a whole number written 1e22 without it.
    """
    count, digest = 0, sha256()
    for cells in rows:
        count += 1
        told = (None if cell is None else KINDS[kind][0](cell) for kind, cell in zip(kinds, cells, strict=True))
        line = json.dumps([_settled(value) for value in told], sort_keys=True, separators=(",", ":"))
        digest.update(line.encode() + b"\n")
    return count, digest.hexdigest()


def _settled(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _settled(part) for key, part in value.items()}
    if isinstance(value, list):
        return [_settled(part) for part in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value

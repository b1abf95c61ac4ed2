"""Texts of one thing a line, such as `fuel pump 8 A`: a name, then a figure with or without its unit."""

import re
from fractions import Fraction

from builds.bench.frame.sums import SumError
from garage.engine.said import said
from garage.engine.units import QuantityError

MOST_LINES = 60
# A line that begins with this is left out: it stays on the list, and is put back by taking the mark away.
LEFT_OUT = "#"
_LINE = re.compile(r"(.*?)[\s:=]+([+-]?[\d.,]+\s*[^\d\s,;]*)$")


def lines_of(text: str) -> list[str]:
    """The lines that count: not empty, and not left out."""
    return [line.strip() for line in text.splitlines() if line.strip() and not line.strip().startswith(LEFT_OUT)]


def toggled(text: str, number: int) -> str:
    """The same text with one of its lines (counted from 0) left out, or put back where it was left out."""
    lines = text.splitlines()
    line = lines[number].strip()
    lines[number] = line.removeprefix(LEFT_OUT).strip() if line.startswith(LEFT_OUT) else f"{LEFT_OUT} {line}"
    return "\n".join(lines)


def named_figures(text: str, unit: str, asked: str) -> list[tuple[str, float]]:
    """Name and figure (in `unit`) of each line that is not empty. SumError names the line that cannot be read."""
    lines = lines_of(text)
    if len(lines) > MOST_LINES:
        raise SumError(f"That is too much: at most {MOST_LINES} lines.", asked)
    return [_read(line, unit, asked) for line in lines]


def _read(line: str, unit: str, asked: str) -> tuple[str, float]:
    parts = _LINE.fullmatch(line)
    if parts is None:
        raise SumError(f"Write a name and a figure in {unit} on each line; “{line[:60]}” is not.", asked)
    try:
        figure: Fraction = said(parts[2], unit, unit)
    except QuantityError as refusal:
        raise SumError(f"“{line[:60]}”: {refusal}", asked) from None
    return parts[1].strip(), float(figure)

"""Figures of an answer as people read them, in metric or imperial."""

import math
import re
from dataclasses import replace
from fractions import Fraction

from builds.bench.frame.drawing import Drawing, Label
from builds.bench.frame.sums import Answer, Column, Table, Worked
from builds.bench.frame.units import IMPERIAL, digits_in, in_system, unit_in
from garage.engine.units import number_words

# A figure with its unit inside a sentence, such as `70.9 mm`; `mm²` and `N·m` are no `mm` and no `N`.
_FIGURE = re.compile(rf"(-?\d+(?:\.(\d+))?) ({'|'.join(sorted(IMPERIAL, key=len, reverse=True))})(?![\w·/])")


def number_said(value: float, unit: str, system: str, digits: int = 3) -> str:
    """A figure with its unit beside it, rounded, without zeros at its end."""
    shown = number_words(Fraction(in_system(value, unit, system)), digits_in(digits, unit, system))
    beside = unit_in(unit, system)
    return f"{shown} {beside}".rstrip() if beside != "°" else f"{shown}°"


def give_in(answer: Answer, system: str) -> float | None:
    """What an answer may be off each way, in that system; a difference, so that zeros play no part."""
    if answer.give is None:
        return None
    return answer.give * abs(in_system(1, answer.unit, system) - in_system(0, answer.unit, system))


def answer_said(answer: Answer, system: str) -> str:
    """As a page, paper and the terminal say an answer, such as `50.9 % ± 0.1`."""
    if answer.value is None:
        return answer.words
    give, digits = give_in(answer, system), answer.digits
    if give:
        # no finer than two figures of what it may be off
        digits = min(digits, max(0, 1 - math.floor(math.log10(abs(answer.give or give)))))
    said = number_said(answer.value, answer.unit, system, digits)
    words = number_words(Fraction(give), digits_in(digits, answer.unit, system)) if give else "0"
    if words != "0":
        said = f"{said} ± {words}"
    return f"{said}, {answer.words}" if answer.words else said


def cell_said(cell: float | str, column: Column, system: str) -> str:
    """A cell without its unit, which stands at the head of the column."""
    if isinstance(cell, str):
        return cell
    return number_words(Fraction(in_system(cell, column.unit, system)), digits_in(column.digits, column.unit, system))


def heading_said(column: Column, system: str) -> str:
    """The head of a column with its unit, such as `Travel, mm`."""
    return ", ".join(part for part in (column.label, unit_in(column.unit, system)) if part)


def table_said(table: Table, system: str) -> list[list[str]]:
    """The heads, then a row each, as a page and the terminal show them."""
    head = [heading_said(column, system) for column in table.columns]
    rows = [
        [cell_said(cell, column, system) for cell, column in zip(line, table.columns, strict=True)]
        for line in table.rows
    ]
    return [head, *rows]


def sentence_said(sentence: str, system: str) -> str:
    """A sentence written in metric units, its figures in those of that system."""
    if system == "metric":
        return sentence
    return _FIGURE.sub(lambda hit: number_said(float(hit[1]), hit[3], system, len(hit[2] or "")), sentence)


def worked_said(worked: Worked, system: str) -> Worked:
    """The same answer, all its sentences and labels in that system."""
    return replace(
        worked,
        answers=tuple(replace(answer, words=sentence_said(answer.words, system)) for answer in worked.answers),
        warnings=tuple(sentence_said(warning, system) for warning in worked.warnings),
        drawing=_drawing_said(worked.drawing, system),
        more_drawings=tuple(_drawing_said(drawing, system) for drawing in worked.more_drawings),
    )


def _drawing_said(drawing: Drawing, system: str) -> Drawing:
    shapes = tuple(
        replace(shape, words=sentence_said(shape.words, system)) if isinstance(shape, Label) else shape
        for shape in drawing.shapes
    )
    return replace(drawing, words=sentence_said(drawing.words, system), shapes=shapes)

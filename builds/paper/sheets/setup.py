"""The setup sheet: the car from above with what was read last at each wheel, and room for what is read next."""

from itertools import groupby

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from builds.paper.pages.setup_sheet import BesideRow, SetupRows
from builds.readings.pages.corners import CornerRow, Figure
from builds.sums.pages.kept import KeptRow
from builds.verdict.sheet import running
from garage.sheets.corners import Cell, CornerLine, HalfCar
from garage.sheets.figures import FigureRow, in_two
from garage.sheets.frame import sheet
from garage.sheets.kit import gap, line, nothing, pieces, runs, together


def setup_sheet(rows: SetupRows) -> bytes:
    """The sheet as PDF bytes: one page, unless there is more than one holds."""
    return sheet(lambda: _story(rows), running(rows.head, f"Setup of {rows.car}", rows.what), rows.head.paper)


def _story(rows: SetupRows) -> list[Flowable]:
    if not (rows.axles or rows.beside or rows.sums):
        return nothing("Nothing was read yet, and nothing is required.")
    story = _car(rows)
    story += in_two([[_row(figure) for figure in kind] for kind in rows.beside])
    story += [gap(1.5 * mm)] if rows.warnings else []
    story += [line(piece, "fine bold") for words in rows.warnings for piece in pieces(words)]
    story += [gap(1.5 * mm)]
    story += [line(piece, "fine") for words in rows.taken for piece in pieces(words)]
    return story + _sums(rows.sums)


def _car(rows: SetupRows) -> list[Flowable]:
    last = len(rows.axles) - 1
    halves = [
        HalfCar(axle.wheels, [_line(at_wheels) for at_wheels in axle.rows], nose=number == 0, tail=number == last)
        for number, axle in enumerate(rows.axles)
    ]
    return [gap(2 * mm), *halves, line(" ".join(rows.derived), "fine bold")]


def _line(row: CornerRow) -> CornerLine:
    return CornerLine(row.label, row.said, _cell(row.left), _cell(row.right))


def _row(row: BesideRow) -> FigureRow:
    return FigureRow(row.label, row.said, _cell(row.figure))


def _cell(figure: Figure | None) -> Cell | None:
    return (figure.value, figure.note, figure.struck) if figure else None


def _sums(sums: tuple[KeptRow, ...]) -> list[Flowable]:
    """What was worked out, on one page: this one, or else the next."""
    by = groupby(sums, lambda one: f"Worked out by {one.kept.by.name}, {one.when}")
    told = ((gap(1.5 * mm), line(said, "name"), *map(_sum, alike)) for said, alike in by)
    return together([piece for pieces_of_one in told for piece in pieces_of_one])


def _sum(row: KeptRow) -> Flowable:
    """What was worked out; struck where work made it void."""
    figures = "; ".join(f"{label}: {figure}" for label, figure in row.checks)
    warnings = [words for words in (*row.kept.warnings, *row.differs) if not row.void and words not in figures]
    return runs(
        [
            (f"{row.title}:", "bold"),
            (f"{figures.rstrip('.')}." if figures else "", "struck" if row.void else ""),
            *((words, "bold") for words in (row.void or row.done, *warnings)),
        ],
        "fine",
    )

"""A figure with a line to write the next one on, and such rows in two columns."""

from collections.abc import Iterator, Sequence
from itertools import accumulate, chain

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Table

from garage.sheets.kit import line, runs

READ, PEN = 21 * mm, 17 * mm
APART = 6 * mm
LEAST = 6 * mm
BAND = 24  # rows of both columns that stay on one page
FLUSH = [
    *((f"{side}PADDING", (0, 0), (-1, -1), 0) for side in ("LEFT", "RIGHT", "TOP", "BOTTOM")),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
]


class FigureRow(Flowable):
    """What it is and what is wanted of it, the figure with what is said of it, and a line for the next.

    `struck`: the figure counts no more, and has a line through it. Without a figure it is a heading.
    """

    def __init__(self, label: str, said: str = "", figure: tuple[str, str, bool] | None = None) -> None:
        super().__init__()
        self.label = [line(label, "fine" if figure else "fine bold"), *([line(said, "fine")] if said else [])]
        value, note, struck = figure or ("", "", False)
        said_of = [(value, "struck" if struck else "bold"), (note, "")]
        self.read = [runs(said_of, "fine")] if value or note else []
        self.writes = figure is not None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        room = width - READ - PEN - 2 * mm if self.writes else width
        tall = sum(words.wrap(room, height)[1] for words in self.label)
        read = sum(words.wrap(READ - 2 * mm, height)[1] for words in self.read)
        self.height = max(LEAST if self.writes else 0, tall + 2 * mm, read + 2 * mm)
        return width, self.height

    def draw(self) -> None:
        for left, words in ((0.0, self.label), (self.width - PEN - READ, self.read)):
            top = self.height - 1 * mm
            for paragraph in words:
                top -= paragraph.height
                paragraph.drawOn(self.canv, left, top)
        if self.writes:
            self.canv.setLineWidth(0.6)
            y = self.height - LEAST + 1.5 * mm
            self.canv.line(self.width - PEN, y, self.width, y)


def in_two(groups: Sequence[list[Flowable]]) -> list[Flowable]:
    """Groups of rows down a left column, then down a right one, as even as groups that are not torn apart let them
    be; a group that is longer than a page may be flows on by itself."""
    bands: list[list[list[Flowable]]] = []
    for group in groups:
        if not bands or sum(map(len, bands[-1])) + len(group) > BAND:
            bands.append([])
        bands[-1].append(group)
    return [table for band in bands for table in _band(band)]


def _band(groups: list[list[Flowable]]) -> Iterator[Flowable]:
    rows = list(chain.from_iterable(groups))
    if len(rows) > BAND:
        yield from rows
        return
    half = min(accumulate(map(len, groups)), key=lambda end: max(end, len(rows) - end))
    yield Table([[rows[:half], "", rows[half:]]], colWidths=["*", APART, "*"], style=FLUSH)

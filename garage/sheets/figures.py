"""A row of figures beside each other, with a line to write the next one on."""

from collections.abc import Sequence

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from garage.sheets.kit import line

# Shares of the width: what it is, four figures, the pen.
SHARES = (0.28, 0.17, 0.21, 0.18, 0.16)


class FigureRow(Flowable):
    """`cells` are what it is and its figures, in words; without `pen` there is a line for one.

    `struck`: the first figure counts no more, and has a line through it.
    """

    def __init__(self, cells: Sequence[str], pen: str = "", style: str = "body", *, struck: bool = False) -> None:
        super().__init__()
        self.cells = [
            line(words, style if number else "body", struck=struck and number == 1)
            for number, words in enumerate(cells)
        ]
        self.pen = line(pen, style) if pen else None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        shares = [share * width for share in SHARES]
        tall = [cell.wrap(share - 2 * mm, height)[1] for cell, share in zip(self.cells, shares, strict=False)]
        if self.pen:
            tall.append(self.pen.wrap(shares[-1], height)[1])
        self.height = max(9 * mm, max(tall) + 2 * mm)
        return width, self.height

    def draw(self) -> None:
        left = 0.0
        for cell, share in zip(self.cells, SHARES, strict=False):
            cell.drawOn(self.canv, left, self.height - 1 * mm - cell.height)
            left += share * self.width
        left = self.width * (1 - SHARES[-1])
        if self.pen:
            self.pen.drawOn(self.canv, left, self.height - 1 * mm - self.pen.height)
        else:
            self.canv.setLineWidth(0.6)
            self.canv.line(left, 1.5 * mm, self.width, 1.5 * mm)

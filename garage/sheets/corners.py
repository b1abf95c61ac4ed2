"""The car from above, its front at the top: what was read at each wheel, beside that wheel, and a line for the next."""

from collections.abc import Sequence
from typing import Self

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from garage.sheets.kit import line, runs

# From the outer edge to the middle of the car: the pen's line, the figure, the wheel; between the wheels the name.
PEN, READ, WHEEL = 16 * mm, 31 * mm, 10 * mm
TYRE = (6.5 * mm, 17 * mm)
LEAST = 7.6 * mm
PAD = 0.2 * mm
HEAD, END = 7 * mm, 3 * mm  # the names of the wheels above the rows, and how far the body reaches beyond the last
Cell = tuple[str, str, bool]  # the figure, what is said of it, and whether it is struck through


class CornerLine:
    """A kind of reading at both wheels of an axle: its name, how it stands, and each figure if there is one."""

    def __init__(self, name: str, said: str, left: Cell | None, right: Cell | None) -> None:
        self.middle = [line(name, "name middle"), line(said, "fine middle")]
        self.sides = [_cell(left, right=True), _cell(right, right=False)]

    def wrap(self, width: float) -> float:
        between = width - 2 * (PEN + READ + WHEEL)
        tall = [sum(words.wrap(between, 1000)[1] for words in self.middle)]
        tall += [sum(words.wrap(READ - 2 * mm, 1000)[1] for words in side) for side in self.sides if side]
        self.height = max(LEAST, max(tall) + 2 * PAD)
        return self.height

    def draw(self, canvas: Canvas, width: float, top: float) -> None:
        y = top - PAD
        for words in self.middle:
            y -= words.height
            words.drawOn(canvas, PEN + READ + WHEEL, y)
        reads, pens = (PEN, width - PEN - READ + 2 * mm), (0.0, width - PEN + 2 * mm)
        for side, read, pen in zip(self.sides, reads, pens, strict=True):
            if side is None:
                continue
            y = top - PAD
            for words in side:
                y -= words.height
                words.drawOn(canvas, read, y)
            canvas.setLineWidth(0.6)
            canvas.line(pen, top - LEAST + 2 * PAD, pen + PEN - 2 * mm, top - LEAST + 2 * PAD)


def _cell(cell: Cell | None, *, right: bool) -> list[Flowable] | None:
    if cell is None:
        return None
    value, note, struck = cell
    return [runs([(value, "struck" if struck else ""), (note, "fine")], "figure right" if right else "figure")]


class HalfCar(Flowable):
    """The rows of an axle about its half of the car, under the names of its wheels; what does not go on a page goes
    to the next. `nose` and `tail` say which ends of the body are its own.
    """

    def __init__(self, wheels: tuple[str, str], rows: Sequence[CornerLine], *, nose: bool, tail: bool) -> None:
        super().__init__()
        self.wheels, self.rows, self.nose, self.tail = wheels, rows, nose, tail
        self.names = [line(wheels[0], "fine right"), line(wheels[1], "fine")]
        self.now = line("now", "fine")

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.height = HEAD + sum(read.wrap(width) for read in self.rows) + END * self.tail
        return width, self.height

    def split(self, width: float, height: float) -> list[Self]:
        self.wrap(width, height)
        room, fits = height - HEAD, 0
        for read in self.rows:
            room -= read.height
            if room < (END if self.tail and read is self.rows[-1] else 0):
                break
            fits += 1
        if not fits or fits == len(self.rows):
            return []
        again = type(self)
        return [
            again(self.wheels, self.rows[:fits], nose=self.nose, tail=False),
            again(self.wheels, self.rows[fits:], nose=False, tail=self.tail),
        ]

    def draw(self) -> None:
        canvas, top = self.canv, self.height - HEAD
        self._body(canvas)
        self._tyres(canvas, top, END * self.tail)
        for name, left in zip(self.names, (PEN, self.width - PEN - READ + 2 * mm), strict=True):
            name.wrap(READ - 2 * mm, HEAD)
            name.drawOn(canvas, left, top + 1 * mm)
        for left in (0.0, self.width - PEN + 2 * mm):
            self.now.wrap(PEN, HEAD)
            self.now.drawOn(canvas, left, top + 1 * mm)
        for read in self.rows:
            read.draw(canvas, self.width, top)
            top -= read.height

    def _body(self, canvas: Canvas) -> None:
        """The outline, open where another half joins on."""
        left, right = PEN + READ + WHEEL - 1.5 * mm, self.width - PEN - READ - WHEEL + 1.5 * mm
        top, middle, corner = self.height, self.width / 2, 9 * mm
        canvas.saveState()
        canvas.setLineWidth(1.1)
        if self.nose:
            path = canvas.beginPath()
            path.moveTo(left, 0)
            path.lineTo(left, top - corner)
            path.curveTo(left, top - 2 * mm, left + corner, top - 1 * mm, middle, top - 1 * mm)
            path.curveTo(right - corner, top - 1 * mm, right, top - 2 * mm, right, top - corner)
            path.lineTo(right, 0)
            canvas.drawPath(path)
        elif self.tail:
            path = canvas.beginPath()
            path.moveTo(left, top)
            path.lineTo(left, 4 * mm)
            path.curveTo(left, 1.5 * mm, left + 2 * mm, 1 * mm, left + 5 * mm, 1 * mm)
            path.lineTo(right - 5 * mm, 1 * mm)
            path.curveTo(right - 2 * mm, 1 * mm, right, 1.5 * mm, right, 4 * mm)
            path.lineTo(right, top)
            canvas.drawPath(path)
        else:
            canvas.line(left, 0, left, top)
            canvas.line(right, 0, right, top)
        canvas.restoreState()

    def _tyres(self, canvas: Canvas, top: float, bottom: float) -> None:
        wide, long = TYRE[0], min(TYRE[1], top - bottom - 1 * mm)
        y = (top + bottom - long) / 2
        canvas.saveState()
        canvas.setLineWidth(1.4)
        canvas.setFillGray(0.85)
        for x in (PEN + READ + 1.5 * mm, self.width - PEN - READ - 1.5 * mm - wide):
            canvas.roundRect(x, y, wide, long, 1.8 * mm, fill=1)
        canvas.restoreState()

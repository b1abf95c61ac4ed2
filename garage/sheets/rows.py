"""The pieces of a sheet: rows to tick, lines to sign, lines to read, the danger marking."""

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from garage.sheets.kit import line

ROW = 9 * mm
TICK = 6 * mm


class TickRow(Flowable):
    """A box to tick, words, and a line for a pen; tall enough for gloved hands.

    `mark` strikes the box as a tag is striped: "full" when signed, "dashed" when only done.
    """

    def __init__(self, text: str, note: str = "", pen: str = "", mark: str = "") -> None:
        super().__init__()
        self.mark = mark
        self.words = [line(text), *([line(note, "small")] if note else [])]
        self.pen = line(pen, "small") if pen else None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.pen_width = 42 * mm if self.pen else 0
        inner = width - TICK - 4 * mm - self.pen_width
        tall = sum(each.wrap(inner, height)[1] for each in self.words)
        self.height = max(ROW, tall + 2.5 * mm)
        return width, self.height

    def draw(self) -> None:
        canvas = self.canv
        canvas.setLineWidth(0.9)
        bottom = self.height - TICK - 1 * mm
        canvas.rect(0, bottom, TICK, TICK)
        if self.mark:
            canvas.saveState()
            canvas.setLineWidth(1.6 * mm)
            canvas.setDash([1.6 * mm, 1.2 * mm] if self.mark == "dashed" else [])
            canvas.line(-0.8 * mm, bottom - 0.8 * mm, TICK + 0.8 * mm, bottom + TICK + 0.8 * mm)
            canvas.restoreState()
        top = self.height - 1 * mm
        for each in self.words:
            top -= each.height
            each.drawOn(canvas, TICK + 3 * mm, top)
        if self.pen:
            left = self.width - self.pen_width + 2 * mm
            canvas.setLineWidth(0.5)
            canvas.line(left, 4.5 * mm, self.width, 4.5 * mm)
            self.pen.wrapOn(canvas, self.pen_width, ROW)
            self.pen.drawOn(canvas, left, 0.2 * mm)


class SignatureLine(Flowable):
    """A long line to sign on, with what is signed under it."""

    def __init__(self, label: str) -> None:
        super().__init__()
        self.label = line(label, "small")

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.height = width, 17 * mm
        return width, self.height

    def draw(self) -> None:
        self.canv.setLineWidth(0.8)
        self.canv.line(0, 6 * mm, self.width, 6 * mm)
        self.label.wrapOn(self.canv, self.width, 6 * mm)
        self.label.drawOn(self.canv, 0, 1 * mm)


class Hazard(Flowable):
    """The general danger marking, diagonals that survive a photocopier, with words in it."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = line(words, "title")

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.height = self.words.wrap(width - 30 * mm, height)[1] + 8 * mm
        return width, self.height

    def draw(self) -> None:
        canvas = self.canv
        canvas.saveState()
        frame = canvas.beginPath()
        frame.rect(0, 0, self.width, self.height - 2 * mm)
        canvas.clipPath(frame, stroke=0)
        canvas.setLineWidth(3.2 * mm)
        canvas.setStrokeColorRGB(0.72, 0.11, 0.11)
        for edge in (0, self.width - 11 * mm):
            x = edge - self.height
            while x < edge + 11 * mm:
                if edge == 0 and x > 8 * mm:
                    break
                canvas.line(x, -2 * mm, x + self.height, self.height)
                x += 7 * mm
        canvas.setFillColorRGB(1, 1, 1)
        canvas.rect(11 * mm, 0, self.width - 22 * mm, self.height, stroke=0, fill=1)
        canvas.restoreState()
        canvas.setLineWidth(1.4)
        canvas.rect(0, 0, self.width, self.height - 2 * mm)
        self.words.drawOn(canvas, 15 * mm, 3 * mm)


class Numbered(Flowable):
    """A short line behind its number, with what it takes: for reading rather than ticking."""

    def __init__(self, number: int, text: str, note: str = "") -> None:
        super().__init__()
        self.number = line(f"{number}.", "bold")
        self.words = [line(text), *([line(note, "small")] if note else [])]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.number.wrap(9 * mm, height)
        self.width = width
        self.height = sum(each.wrap(width - 9 * mm, height)[1] for each in self.words) + 1.4 * mm
        return width, self.height

    def draw(self) -> None:
        top = self.height
        self.number.drawOn(self.canv, 0, top - self.number.height)
        for each in self.words:
            top -= each.height
            each.drawOn(self.canv, 9 * mm, top)


class Bullet(Numbered):
    """A small line behind a dash."""

    def __init__(self, text: str) -> None:
        super().__init__(0, text)
        self.number, self.words = line("–", "small"), [line(text, "small")]

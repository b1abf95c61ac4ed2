"""The pieces of a sheet: rows to tick, lines to sign, lines to read, the danger marking."""

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from garage.sheets.hazard import diagonals
from garage.sheets.kit import line, runs

ROW = 9.5 * mm
TICK = 6.5 * mm
PEN = 40 * mm


class TickRow(Flowable):
    """A box to tick, words, and a line for a pen; tall enough for gloved hands.

    `mark` strikes the box as a tag is striped: "full" when signed, "dashed" when only done.
    """

    def __init__(self, text: str, note: str = "", pen: str = "", mark: str = "", number: int = 0) -> None:
        super().__init__()
        self.mark = mark
        self.number = line(f"{number}.", "bold") if number else None
        joined = f"– {note}" if note and text[-1:] not in ".?!" else note
        self.words = runs([(text, ""), (joined, "small")])
        self.pen = line(pen, "fine") if pen else None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.left = TICK + 3 * mm + (9 * mm if self.number else 0)
        inner = width - self.left - (PEN + 4 * mm if self.pen else 0)
        self.height = max(ROW, self.words.wrap(inner, height)[1] + 3 * mm)
        return width, self.height

    def draw(self) -> None:
        canvas = self.canv
        canvas.setLineWidth(1)
        bottom = self.height - TICK - 1 * mm
        canvas.rect(0.5, bottom, TICK, TICK)
        if self.mark:
            canvas.saveState()
            canvas.setLineWidth(1.6 * mm)
            canvas.setDash([1.6 * mm, 1.2 * mm] if self.mark == "dashed" else [])
            canvas.line(-0.6 * mm, bottom - 0.8 * mm, TICK + 1 * mm, bottom + TICK + 0.8 * mm)
            canvas.restoreState()
        top = self.height - 1 * mm
        if self.number:
            self.number.wrapOn(canvas, 9 * mm, ROW)
            self.number.drawOn(canvas, TICK + 3 * mm, top - self.number.height)
        self.words.drawOn(canvas, self.left, top - self.words.height)
        if self.pen:
            left, under = self.width - PEN, self.height - 5.5 * mm
            canvas.setLineWidth(0.6)
            canvas.line(left, under, self.width, under)
            self.pen.wrapOn(canvas, PEN, ROW)
            self.pen.drawOn(canvas, left, under - self.pen.height)


class SignatureRow(Flowable):
    """Long lines to sign on beside each other, with what is signed under each."""

    GAP = 8 * mm

    def __init__(self, *labels: str) -> None:
        super().__init__()
        self.labels = [line(label, "small") for label in labels]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.each = (width - self.GAP * (len(self.labels) - 1)) / len(self.labels)
        self.below = max(label.wrap(self.each, height)[1] for label in self.labels) + 1 * mm
        self.width, self.height = width, self.below + 12 * mm
        return width, self.height

    def draw(self) -> None:
        self.canv.setLineWidth(0.8)
        for number, label in enumerate(self.labels):
            left = number * (self.each + self.GAP)
            self.canv.line(left, self.below, left + self.each, self.below)
            label.drawOn(self.canv, left, self.below - 0.5 * mm - label.height)


class Hazard(Flowable):
    """The general danger marking, diagonals that survive a photocopier, with words in it."""

    END = 14 * mm

    def __init__(self, words: str, note: str = "") -> None:
        super().__init__()
        self.words = [line(words, "title"), *([line(note)] if note else [])]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        room = width - 2 * self.END - 8 * mm
        self.height = sum(paragraph.wrap(room, height)[1] for paragraph in self.words) + 6 * mm
        return width, self.height

    def draw(self) -> None:
        canvas = self.canv
        for left in (0, self.width - self.END):
            diagonals(canvas, left, 0, self.END, self.height)
        canvas.setLineWidth(1.4)
        canvas.rect(0, 0, self.width, self.height)
        top = self.height - 2.5 * mm
        for paragraph in self.words:
            top -= paragraph.height
            paragraph.drawOn(canvas, self.END + 4 * mm, top)


class Bullet(Flowable):
    """A line behind a dash, for reading rather than ticking."""

    def __init__(self, text: str, style: str = "body") -> None:
        super().__init__()
        self.dash, self.words = line("–", style), line(text, style)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.dash.wrap(6 * mm, height)
        self.height = self.words.wrap(width - 6 * mm, height)[1] + 1.2 * mm
        return width, self.height

    def draw(self) -> None:
        self.dash.drawOn(self.canv, 0, self.height - self.dash.height)
        self.words.drawOn(self.canv, 6 * mm, self.height - self.words.height)

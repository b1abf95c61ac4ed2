"""The pieces of a job card: its own tag with a code, a caution, lines to write on."""

from collections.abc import Sequence

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from garage.sheets.frame import INSET, PAD, QR_SIZE
from garage.sheets.kit import line
from garage.sheets.tag import Box, outline, qr

BAR = 2.2 * mm


class Tag(Flowable):
    """A job's tag: title, facts, and the code that leads to its page."""

    def __init__(self, title: str, facts: Sequence[str], address: str) -> None:
        super().__init__()
        self.address = address
        self.words = [line(title, "part"), *(line(fact) for fact in facts)]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        room = width - INSET - 2 * PAD - QR_SIZE
        self.tall = sum(paragraph.wrap(room, height)[1] for paragraph in self.words)
        self.body = max(QR_SIZE + 2 * mm, self.tall + 2 * PAD)
        self.height = self.body + 4 * mm
        return width, self.height

    def draw(self) -> None:
        outline(self.canv, Box(0.5, 1.5 * mm, self.width - 1, self.body))
        top = 1.5 * mm + (self.body + self.tall) / 2
        for paragraph in self.words:
            top -= paragraph.height
            paragraph.drawOn(self.canv, INSET, top)
        middle = 1.5 * mm + (self.body - QR_SIZE) / 2
        qr(self.canv, self.address, self.width - QR_SIZE - PAD / 2, middle, QR_SIZE)


class CautionBar(Flowable):
    """Words behind a thick bar that a photocopier keeps."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.words = line(text, "bold")

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.height = self.words.wrap(width - BAR - 3 * mm, height)[1] + 2 * mm
        return width, self.height

    def draw(self) -> None:
        self.canv.rect(0, 0.6 * mm, BAR, self.height - 1.2 * mm, stroke=0, fill=1)
        self.words.drawOn(self.canv, BAR + 3 * mm, 1 * mm)


class PenLine(Flowable):
    """Lines to write on beside each other, each with its label under it."""

    def __init__(self, *labels: str) -> None:
        super().__init__()
        self.labels = [line(label, "small") for label in labels]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.height = width, 14 * mm
        return width, self.height

    def draw(self) -> None:
        share = self.width / len(self.labels)
        self.canv.setLineWidth(0.6)
        for number, label in enumerate(self.labels):
            left = number * share
            self.canv.line(left, 5 * mm, left + share - 4 * mm, 5 * mm)
            label.wrapOn(self.canv, share - 4 * mm, self.height)
            label.drawOn(self.canv, left, 0.4 * mm)

"""The tie-on tag that heads every sheet and every label, and the code that leads back."""

from itertools import groupby
from typing import NamedTuple

from reportlab.graphics.barcode.qrencoder import QRCode, QRErrorCorrectLevel
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

QUIET = 4


def qr(canvas: Canvas, address: str, x: float, y: float, size: float) -> None:
    """The address as a QR code (ISO/IEC 18004, level M), its quiet zone inside the size.

    One path of runs: the encoder's own drawing, a shape a run, takes three times as long.
    """
    code = QRCode(None, QRErrorCorrectLevel.M)
    code.addData(address)
    code.make()
    module = size / (code.getModuleCount() + 2 * QUIET)
    path = canvas.beginPath()
    for line, modules in enumerate(code.modules, QUIET + 1):
        column = QUIET
        for dark, run in groupby(modules, bool):
            long = sum(1 for _ in run)
            if dark:
                path.rect(x + column * module, y + size - line * module, long * module, module)
            column += long
    canvas.drawPath(path, stroke=0, fill=1)


class Box(NamedTuple):
    """Where something is drawn, in points: its lower left corner, how wide and how high."""

    x: float
    y: float
    width: float
    height: float

    def within(self, margin: float) -> "Box":
        return Box(self.x + margin, self.y + margin, self.width - 2 * margin, self.height - 2 * margin)


def outline(
    canvas: Canvas,
    box: Box,
    *,
    clip: float = 6 * mm,
    hole: tuple[float, float] = (7 * mm, 9 * mm),
    ring: float = 1.4 * mm,
) -> None:
    """One clipped corner, and a punched hole with its ring, so far from the left and the top."""
    x, y, width, height = box
    path = canvas.beginPath()
    path.moveTo(x + clip, y + height)
    for point in ((x + width, y + height), (x + width, y), (x, y), (x, y + height - clip)):
        path.lineTo(*point)
    path.close()
    canvas.setLineWidth(1.1)
    canvas.drawPath(path)
    canvas.setLineWidth(ring)
    canvas.circle(x + hole[0], y + height - hole[1], ring * 1.57)

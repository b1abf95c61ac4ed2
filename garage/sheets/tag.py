"""The tie-on tag that heads every sheet and every label, and the code that leads back."""

from typing import NamedTuple

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from garage.sheets.qr_code import qr_code


def qr(canvas: Canvas, address: str, x: float, y: float, size: float) -> None:
    """The address as a QR code, its quiet zone inside the size.

    One path of whole modules: rectangles in points, each written with its decimals, take three times as long.
    """
    code = qr_code(address)
    canvas.saveState()
    canvas.translate(x, y)
    canvas.scale(size / code.size, size / code.size)
    path = PDFPathObject([f"{column} {code.size - line - 1} {long} 1 re" for line, column, long in code.runs])
    canvas.drawPath(path, stroke=0, fill=1)
    canvas.restoreState()


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

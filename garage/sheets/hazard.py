"""The general danger marking: diagonals that survive a photocopier."""

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

RED = (0.61, 0.11, 0.08)
STEP = 8 * mm
BAND = 3.2 * mm


def diagonals(canvas: Canvas, x: float, y: float, width: float, height: float) -> None:
    """A field of slanted bands."""
    canvas.saveState()
    field = canvas.beginPath()
    field.rect(x, y, width, height)
    canvas.clipPath(field, stroke=0)
    canvas.setLineWidth(BAND)
    canvas.setStrokeColorRGB(*RED)
    left = x - height
    while left < x + width:
        canvas.line(left, y - 2 * mm, left + height + 4 * mm, y + height + 2 * mm)
        left += STEP
    canvas.restoreState()

"""Slanted bands: the general danger marking, which survives a photocopier, and the hatching of what waits."""

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from garage.sheets.tag import Box

RED = (0.61, 0.11, 0.08)
STEP = 8 * mm
BAND = 3.2 * mm


def diagonals(canvas: Canvas, x: float, y: float, width: float, height: float) -> None:
    """A field of the danger marking."""
    canvas.saveState()
    canvas.setLineWidth(BAND)
    canvas.setStrokeColorRGB(*RED)
    _slanted(canvas, Box(x, y, width, height), STEP)
    canvas.restoreState()


def hatching(canvas: Canvas, box: Box) -> None:
    """A field of fine lines in a frame."""
    canvas.saveState()
    canvas.setLineWidth(0.5)
    _slanted(canvas, box, 1.6 * mm)
    canvas.setLineWidth(0.7)
    canvas.rect(*box)
    canvas.restoreState()


def _slanted(canvas: Canvas, box: Box, step: float) -> None:
    x, y, width, height = box
    canvas.saveState()
    field = canvas.beginPath()
    field.rect(x, y, width, height)
    canvas.clipPath(field, stroke=0)
    left = x - height
    while left < x + width:
        canvas.line(left, y - 2 * mm, left + height + 4 * mm, y + height + 2 * mm)
        left += step
    canvas.restoreState()

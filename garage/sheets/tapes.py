"""The colours of the tapes on paper, as the style sheet has them by day."""

from reportlab.lib.colors import Color, HexColor, black, white
from reportlab.pdfgen.canvas import Canvas

from garage.sheets.fonts import BOLD, drawable
from garage.sheets.tag import Box

TAPES = {
    "green": "#20744a",
    "orange": "#b94800",
    "purple": "#66429c",
    "grey": "#62676b",
    "blue": "#1f62a8",
    "red": "#b3251d",
    "white": "#ffffff",
    "yellow": "#8d6b00",
    "brown": "#7a4a22",
    "pink": "#b8326f",
}
LETTER = 7.5  # points


def tape(canvas: Canvas, box: Box, colour: str, mark: str) -> None:
    """A strip of a car's tape, with the letter or number that tells it from the others without colour."""
    canvas.saveState()
    canvas.setLineWidth(0.6)
    canvas.setFillColor(HexColor(TAPES[colour]))
    canvas.rect(*box, fill=1)
    words = drawable(mark)
    if box.width > canvas.stringWidth(words, BOLD, LETTER) + 1:
        canvas.setFillColor(_ink(colour))
        canvas.setFont(BOLD, LETTER)
        canvas.drawCentredString(box.x + box.width / 2, box.y + (box.height - 0.73 * LETTER) / 2, words)
    canvas.restoreState()


def _ink(colour: str) -> Color:
    return black if colour == "white" else white

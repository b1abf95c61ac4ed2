"""A job in the lane of whoever does it: as much of its name as there is room for, its car's tape at the foot."""

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from builds.plan.pages.lanes import Mark
from garage.sheets.fit import ASCENT, DESCENT, Fitted, fitted
from garage.sheets.fonts import BODY, BOLD
from garage.sheets.tag import Box
from garage.sheets.tapes import tape

TAPE = 3.2 * mm
PAD = 0.3 * mm
SIZES = (8.5, 8, 7.5, 7, 6.5)
LEAST = SIZES[-1] * (ASCENT + DESCENT)


def block(canvas: Canvas, box: Box, mark: Mark, letter: str, colour: str) -> None:
    """A thick frame is safety, a dashed one wanted; a bold name is late, and stands upright where that holds more."""
    canvas.saveState()
    canvas.setFillGray(1)
    canvas.setLineWidth(1.8 if mark.kind == "safety" else 0.7)
    canvas.setDash([2, 1.5] if mark.kind == "wanted" else [])
    canvas.rect(box.x, box.y, box.width, box.height, fill=1)
    canvas.setDash([])
    canvas.setFillGray(0)
    tape(canvas, Box(box.x, box.y, box.width, TAPE), colour, letter)
    _name(canvas, Box(box.x, box.y + TAPE, box.width, box.height - TAPE).within(PAD), mark)
    canvas.restoreState()


def _name(canvas: Canvas, room: Box, mark: Mark) -> None:
    words, face = mark.words, BOLD if mark.late else BODY
    across, upright = _held(words, room.width, room.height, face), _held(words, room.height, room.width, face)
    if _shows(upright, words) > _shows(across, words):
        canvas.saveState()
        canvas.translate(room.x, room.y)
        canvas.rotate(90)
        upright.draw(canvas, 0, 0)
        canvas.restoreState()
    else:
        across.draw(canvas, room.x, room.y + room.height)


def _held(words: str, wide: float, tall: float, face: str) -> Fitted:
    """Nothing where not one line has room."""
    return fitted(words, wide, tall, SIZES, face) if min(wide, tall) >= LEAST else Fitted(face, SIZES[-1], ())


def _shows(held: Fitted, words: str) -> tuple[bool, int, float]:
    """How well the words are read: none of them broken, then as many letters, then as large as can be."""
    said = " ".join(held.lines).removesuffix("…")
    return " ".join(words.split()).startswith(said), len(said), held.size

"""The tag to hang on the wheel: do not drive, why, and until whose signature."""

from collections.abc import Sequence
from io import BytesIO
from typing import NamedTuple

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from builds.paper.pages.drive_tag import DriveTag
from garage.sheets.fit import Fitted, fitted
from garage.sheets.fonts import BODY, BOLD, drawable
from garage.sheets.frame import PAPER
from garage.sheets.hazard import diagonals
from garage.sheets.tag import Box, outline, qr

EDGE = 11 * mm
BAND = 11 * mm
INSET = 9 * mm
QR_SIZE = 32 * mm
FOOT = 54 * mm
REASONS = (28.0, 24.0, 20.0, 17.0, 15.0, 13.0, 11.5)
MOST_REASONS = 8
Told = tuple[str, str]  # why it may not be driven, and what clears that


def drive_tag(rows: DriveTag) -> bytes:
    """One page of bytes, to be cut or folded along the frame; readable from beside the car."""
    (width, height), out = PAPER[rows.head.paper], BytesIO()
    canvas = Canvas(out, pagesize=(width, height), invariant=1, lang="en-GB")
    canvas.setTitle(drawable(f"Do not drive: {rows.car}"))
    canvas.setAuthor("Witness Mark")
    _frame(canvas, width, height)
    left = EDGE + BAND + INSET
    room = width - 2 * left
    # Below the hole.
    top = height - EDGE - BAND - 24 * mm
    for text, tall, sizes, face in (
        ("DO NOT DRIVE", 30 * mm, (62.0, 54.0, 48.0), BOLD),
        (rows.car, 22 * mm, (40.0, 32.0, 24.0, 18.0), BOLD),
        (rows.what, 12 * mm, (13.0, 11.0), BODY),
    ):
        words = fitted(text, room, tall, sizes, face)
        words.draw(canvas, left, top)
        top -= words.height + 3 * mm
    foot = EDGE + BAND + FOOT
    _reasons(canvas, rows.reasons, _Box(left, top - 3 * mm, room, top - 3 * mm - foot))
    _foot(canvas, rows, left, foot, room)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def _frame(canvas: Canvas, width: float, height: float) -> None:
    """The marking all round, a clipped corner inside it, and the hole to hang it by."""
    whole = Box(0, 0, width, height)
    diagonals(canvas, *whole.within(EDGE))
    canvas.setFillGray(1)
    card = whole.within(EDGE + BAND)
    canvas.rect(*card, stroke=0, fill=1)
    canvas.setFillGray(0)
    hole = (card.width / 2, 12 * mm)
    outline(canvas, card, clip=14 * mm, hole=hole, ring=2.6 * mm)


class _Box(NamedTuple):
    """Where there is room, in points; `top` is counted from the foot of the page."""

    left: float
    top: float
    width: float
    height: float


def _reasons(canvas: Canvas, reasons: tuple[Told, ...], box: _Box) -> None:
    """As large as they all fit; where there is none, lines to write one on."""
    shown = reasons[:MOST_REASONS]
    more = len(reasons) - len(shown)
    if not shown:
        _blank_lines(canvas, box)
        return
    height = (box.height - (8 * mm if more else 0)) / len(shown) - 3 * mm
    size = min(_reason(reason, box.width, height, REASONS)[0].size for reason in shown)
    sizes = [smaller for smaller in REASONS if smaller <= size] or [REASONS[-1]]
    top = box.top
    for reason in shown:
        said, clears = _reason(reason, box.width, height, sizes)
        said.draw(canvas, box.left, top)
        clears.draw(canvas, box.left, top - said.height - 1 * mm)
        top -= said.height + clears.height + 4 * mm
    if more:
        words = "And one more, behind the code." if more == 1 else f"And {more} more, behind the code."
        fitted(words, box.width, 8 * mm, (12.0,)).draw(canvas, box.left, top)


def _blank_lines(canvas: Canvas, box: _Box) -> None:
    fitted("Why, and who says so:", box.width, 8 * mm, (13.0,)).draw(canvas, box.left, box.top)
    canvas.setLineWidth(0.8)
    for number in range(1, 5):
        y = box.top - 14 * mm * number
        canvas.line(box.left, y, box.left + box.width, y)


def _reason(reason: Told, width: float, height: float, sizes: Sequence[float]) -> tuple[Fitted, Fitted]:
    sentence, clears = reason
    small = fitted(clears, width, 11 * mm, (11.5, 10.0))
    return fitted(sentence, width, height - small.height - 1 * mm, sizes, BOLD), small


def _foot(canvas: Canvas, rows: DriveTag, left: float, top: float, room: float) -> None:
    """Who took it off, when it was computed, and the code that says how it stands now."""
    beside = room - QR_SIZE - 4 * mm
    qr(canvas, rows.head.address, left + room - QR_SIZE, top - QR_SIZE, QR_SIZE)
    canvas.setLineWidth(0.8)
    canvas.line(left, top - 13 * mm, left + beside, top - 13 * mm)
    fitted("taken off by: name, date, time", beside, 6 * mm, (9.5,)).draw(canvas, left, top - 14 * mm)
    words = f"{rows.head.verdict} Computed {rows.head.computed}. {rows.head.garage}."
    fitted(words, beside, 14 * mm, (10.0, 9.0, 8.0)).draw(canvas, left, top - 20 * mm)
    fitted(rows.head.standing, room, 9 * mm, (9.0, 8.0, 7.0)).draw(canvas, left, top - 38 * mm)
    fitted("page 1 of 1", room, 5 * mm, (9.0,)).draw(canvas, left, top - 48 * mm)

"""Labels for shelves, bins and parts, laid on sheets of labels; and a page to measure with."""

from collections.abc import Sequence
from io import BytesIO

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from garage.sheets.fit import fitted
from garage.sheets.fonts import BODY, BOLD
from garage.sheets.tag import Box, outline, qr
from parts.engine.label_grid import PAPER_MM, Grid, LabelSpot, lay
from parts.pages.labels import CodeLabel

# Cutters and printers wander by about a millimetre; common practice, no source.
INSET = 1.5 * mm
PAD = 1.5 * mm
CLIP = 3.5 * mm
RING = (4.2 * mm, 5.4 * mm)
LEFT = 7.4 * mm
# Below 15 mm a greasy code is not read any more, above 25 mm nothing is gained (measured).
QR_LEAST, QR_MOST = 15 * mm, 25 * mm
CODE_SIZES = (9.0, 8.0, 7.0, 6.0)
TITLE_SIZES = (24.0, 20.0, 17.0, 14.0, 12.0, 10.5, 9.0, 8.0, 7.0)
NOTE_SIZES = (9.0, 8.0, 7.0)
Shift = tuple[float, float]


def labels(rows: Sequence[CodeLabel], grid: Grid, start: int = 1, shift: Shift = (0.0, 0.0)) -> bytes:
    """The PDF of a pile of labels, all moved right and down by `shift` mm."""
    out = BytesIO()
    canvas = _canvas(out, grid, "Labels")
    left = iter(rows)
    for spots in lay(grid, len(rows), start):
        for spot in spots:
            _label(canvas, next(left), _box(grid, spot, shift), cut=grid.plain)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def calibration(grid: Grid, shift: Shift = (0.0, 0.0)) -> bytes:
    """One sheet of outlines and numbers, to hold against the labels and a ruler."""
    out = BytesIO()
    canvas = _canvas(out, grid, "Calibration page")
    (spots,) = lay(grid, grid.each)
    for number, spot in enumerate(spots, 1):
        box = _box(grid, spot, shift)
        canvas.setLineWidth(0.4)
        canvas.rect(*box)
        canvas.setFont(BOLD, 11)
        canvas.drawString(box.x + 3 * mm, box.y + box.height - 6 * mm, str(number))
        _cross(canvas, box.x + box.width / 2, box.y + box.height / 2)
    _ruler(canvas, grid)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def _canvas(out: BytesIO, grid: Grid, title: str) -> Canvas:
    wide, tall = PAPER_MM[grid.paper]
    canvas = Canvas(out, pagesize=(wide * mm, tall * mm), invariant=1, lang="en-GB")
    canvas.setTitle(title)
    canvas.setAuthor("Witness Mark")
    return canvas


def _box(grid: Grid, spot: LabelSpot, shift: Shift) -> Box:
    """In points from the lower left corner, as paper has them."""
    x, y = spot.x + shift[0], PAPER_MM[grid.paper][1] - spot.y - spot.height - shift[1]
    return Box(x * mm, y * mm, spot.width * mm, spot.height * mm)


def _label(canvas: Canvas, row: CodeLabel, spot: Box, *, cut: bool) -> None:
    if cut:
        canvas.setLineWidth(0.3)
        canvas.setDash([1 * mm, 1 * mm])
        canvas.rect(*spot)
        canvas.setDash([])
    x, y, width, height = box = spot.within(INSET)
    outline(canvas, box, clip=CLIP, hole=RING, ring=0.9 * mm)
    size = min(QR_MOST, max(QR_LEAST, height - 4.6 * mm))
    code = fitted(row.code, size, 4 * mm, CODE_SIZES, BODY)
    block = size + code.height
    bottom = y + (height - block) / 2
    right = x + width - size - PAD / 2
    qr(canvas, row.address, right, bottom + code.height, size)
    inset = (size - canvas.stringWidth(row.code, BODY, code.size)) / 2
    code.draw(canvas, right + max(inset, 0), bottom + code.height)
    room = right - x - LEFT
    note = fitted(row.note, room, 0.3 * height, NOTE_SIZES)
    title = fitted(row.title, room, height - 2 * PAD - note.height, TITLE_SIZES, BOLD)
    top = y + (height + title.height + note.height) / 2
    title.draw(canvas, x + LEFT, top)
    note.draw(canvas, x + LEFT, top - title.height)


def _cross(canvas: Canvas, x: float, y: float) -> None:
    canvas.line(x - 4 * mm, y, x + 4 * mm, y)
    canvas.line(x, y - 4 * mm, x, y + 4 * mm)


def _ruler(canvas: Canvas, grid: Grid) -> None:
    """100 mm to hold a ruler to, and how to take up what is off."""
    wide, tall = (side * mm for side in PAPER_MM[grid.paper])
    x, y = wide / 2 - 50 * mm, tall / 2
    canvas.setFillGray(1)
    canvas.rect(x - 5 * mm, y - 22 * mm, 110 * mm, 34 * mm, fill=1)
    canvas.setFillGray(0)
    canvas.line(x, y, x + 100 * mm, y)
    for step in range(11):
        canvas.line(x + step * 10 * mm, y, x + step * 10 * mm, y + (5 if step % 5 else 8) * mm)
    words = (
        f"{grid.words}. The line is 100 mm: if not, print without scaling (100 %). Hold this "
        "page against a sheet of labels: what every outline is off, right or down, is typed as "
        "the shift."
    )
    fitted(words, 100 * mm, 18 * mm, (9.5, 8.5)).draw(canvas, x, y - 2 * mm)

"""Paper: the one place where text reaches ReportLab, and the frame that every sheet has."""

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from reportlab.graphics import renderPDF
from reportlab.graphics.barcode.qr import QrCodeWidget
from reportlab.graphics.shapes import Drawing
from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    KeepTogether,
    PageTemplate,
    Paragraph,
    Spacer,
)

from garage.sheets.fonts import BODY, BOLD, drawable, register

PAPER = {"a4": A4, "letter": LETTER}
MARGIN = 14 * mm
HEAD = 20 * mm
FOOT = 14 * mm
QR_SIZE = 25 * mm
LONGEST = 4000

register()
STYLES = {
    "body": ParagraphStyle("body", fontName=BODY, fontSize=11, leading=14.5),
    "small": ParagraphStyle("small", fontName=BODY, fontSize=9, leading=12),
    "bold": ParagraphStyle("bold", fontName=BOLD, fontSize=11, leading=14.5),
    "title": ParagraphStyle("title", fontName=BOLD, fontSize=20, leading=25),
    "verdict": ParagraphStyle("verdict", fontName=BOLD, fontSize=14, leading=18),
    "part": ParagraphStyle(
        "part", fontName=BOLD, fontSize=12.5, leading=16, spaceBefore=5 * mm, spaceAfter=1.5 * mm
    ),
    "right": ParagraphStyle("right", fontName=BODY, fontSize=9, leading=12, alignment=TA_RIGHT),
}


def pdf_text(text: str) -> str:
    """Text of anybody's as ReportLab may have it: no mark-up, nothing that cannot be drawn."""
    return escape(drawable(str(text)[:LONGEST])).replace("\n", "<br/>")


def line(text: str, style: str = "body") -> Paragraph:
    """A paragraph of plain text."""
    return Paragraph(pdf_text(text), STYLES[style])


def part(title: str, rows: Sequence[Flowable]) -> list[Flowable]:
    """A heading that stays with its first row."""
    if not rows:
        return []
    return [KeepTogether([line(title, "part"), rows[0]]), *rows[1:]]


def gap(height: float) -> Spacer:
    return Spacer(1, height)


@dataclass(frozen=True)
class Running:
    """What stands on every page: at the top, at the bottom, and behind the QR code."""

    head: str
    verdict: str
    computed: str
    foot: str
    address: str


class _Numbered(Canvas):
    """A canvas that knows how many pages there are before it writes the first."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **{**kwargs, "invariant": 1})
        self._pages: list[dict[str, Any]] = []

    def showPage(self) -> None:
        self._pages.append(dict(self.__dict__))
        self._startPage()

    def save(self) -> None:
        for number, page in enumerate(self._pages, start=1):
            self.__dict__.update(page)
            self.setFont(BODY, 9)
            self.drawRightString(
                self._pagesize[0] - MARGIN, 8 * mm, f"page {number} of {len(self._pages)}"
            )
            super().showPage()
        super().save()


def _qr(canvas: Canvas, address: str, x: float, y: float) -> None:
    """The address as a QR code (ISO/IEC 18004, level M), its quiet zone inside the size."""
    code = QrCodeWidget(address, barLevel="M", barBorder=4)
    left, bottom, right, top = code.getBounds()
    drawing = Drawing(QR_SIZE, QR_SIZE)
    drawing.transform = (QR_SIZE / (right - left), 0, 0, QR_SIZE / (top - bottom), -left, -bottom)
    drawing.add(code)
    renderPDF.draw(drawing, canvas, x, y)


def _tag(canvas: Canvas, x: float, y: float, width: float, height: float) -> None:
    """The outline of a tie-on tag: one clipped corner, one punched hole."""
    clip = 5 * mm
    path = canvas.beginPath()
    path.moveTo(x + clip, y + height)
    for point in ((x + width, y + height), (x + width, y), (x, y), (x, y + height - clip)):
        path.lineTo(*point)
    path.close()
    canvas.setLineWidth(1)
    canvas.drawPath(path)
    canvas.circle(x + 6.5 * mm, y + height / 2, 2 * mm)


def sheet(title: str, story: Sequence[Flowable], running: Running, paper: str = "a4") -> bytes:
    """The PDF of a sheet: the same rows give the same bytes."""
    size, out = PAPER[paper], BytesIO()
    width, height = size
    top = height - 10 * mm

    def frame_of(first: bool) -> Frame:
        head = max(HEAD, QR_SIZE) if first else HEAD
        return Frame(
            MARGIN, FOOT, width - 2 * MARGIN, top - head - FOOT - 2 * mm,
            leftPadding=0, rightPadding=0, topPadding=2 * mm, bottomPadding=0,
        )  # fmt: skip

    def dress(canvas: Canvas, first: bool) -> None:
        canvas.saveState()
        room = width - 2 * MARGIN - (QR_SIZE + 4 * mm if first else 0)
        tall = QR_SIZE if first else HEAD - 3 * mm
        _tag(canvas, MARGIN, top - tall, room, tall)
        lines = [
            line(running.head, "bold"),
            line(running.verdict, "small"),
            line(running.computed, "small"),
        ]
        heights = [each.wrap(room - 15 * mm, tall)[1] for each in lines]
        y = top - (tall - sum(heights)) / 2
        for each, size_of in zip(lines, heights, strict=True):
            y -= size_of
            each.drawOn(canvas, MARGIN + 12 * mm, y)
        if first:
            _qr(canvas, running.address, width - MARGIN - QR_SIZE, top - QR_SIZE)
        foot = line(running.foot, "small")
        foot.wrap(width - 2 * MARGIN - 30 * mm, FOOT)
        foot.drawOn(canvas, MARGIN, 6 * mm)
        canvas.restoreState()

    document = BaseDocTemplate(
        out, pagesize=size, title=drawable(title), author="Witness Mark", invariant=1
    )
    document.addPageTemplates(
        [
            PageTemplate("first", [frame_of(True)], onPage=lambda c, d: dress(c, True),
                         autoNextPageTemplate="later"),
            PageTemplate("later", [frame_of(False)], onPage=lambda c, d: dress(c, False)),
        ]
    )  # fmt: skip
    document.build(list(story), canvasmaker=_Numbered)
    return out.getvalue()

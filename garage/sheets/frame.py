"""The frame of every sheet: its tag at the head, the code that leads back, the pages counted."""

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate, Paragraph

from garage.sheets.fonts import BODY, drawable
from garage.sheets.kit import line
from garage.sheets.tag import Box, outline, qr

PAPER = {"a4": A4, "letter": LETTER}
MARGIN = 14 * mm
EDGE = 10 * mm
QR_SIZE = 25 * mm
INSET = 13 * mm
PAD = 3.5 * mm
# Of the paper's height: what is taller than that would leave too much of a page empty.
MOST_KEPT = 0.6


@dataclass(frozen=True)
class Running:
    """What stands on every page: the tag's words, the foot, and what the code leads to.

    `facts` are lines of the first page alone; `warning` comes again on the pages after it.
    """

    title: str
    verdict: str
    warning: str
    garage: str
    computed: str
    facts: tuple[str, ...]
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
            self.setFont(BODY, 9.5)
            self.drawRightString(self._pagesize[0] - MARGIN, EDGE, f"page {number} of {len(self._pages)}")
            super().showPage()
        super().save()


class _Head:
    """The tag of a page: its words are measured first, since long names make it taller."""

    def __init__(self, running: Running, width: float, *, first: bool) -> None:
        self.address = running.address if first else ""
        self.width = width
        self.lines: list[Paragraph] = (
            [
                line(running.garage, "small"),
                line(running.title, "title"),
                *(line(fact) for fact in running.facts),
                line(running.verdict, "verdict"),
                line(f"Computed {running.computed} · {running.address}", "small"),
            ]
            if first
            else [
                line(running.title, "bold"),
                line(" ".join(filter(None, [running.warning, running.verdict])), "small"),
                line(f"{running.garage} · computed {running.computed}", "small"),
            ]
        )
        room = width - INSET - PAD - (QR_SIZE + PAD if first else 0)
        self.tall = [paragraph.wrap(room, 1000 * mm)[1] for paragraph in self.lines]
        least = QR_SIZE + 2 * PAD if first else 18 * mm
        self.height = max(least, sum(self.tall) + 2 * PAD)

    def draw(self, canvas: Canvas, top: float) -> None:
        bottom = top - self.height
        outline(canvas, Box(MARGIN, bottom, self.width, self.height))
        y = top - (self.height - sum(self.tall)) / 2
        for paragraph, tall in zip(self.lines, self.tall, strict=True):
            y -= tall
            paragraph.drawOn(canvas, MARGIN + INSET, y)
        if self.address:
            middle = bottom + (self.height - QR_SIZE) / 2
            qr(canvas, self.address, MARGIN + self.width - QR_SIZE - PAD, middle, QR_SIZE)


def blocks(groups: Sequence[list[Flowable]], paper: str) -> list[Flowable | list[Flowable]]:
    """Rows of which each group stays on one page, unless it would fill most of one by itself."""
    width, height = PAPER[paper]
    kept: list[Flowable | list[Flowable]] = []
    for group in groups:
        tall = sum(piece.wrap(width - 2 * MARGIN, height)[1] for piece in group)
        if tall < MOST_KEPT * height:
            kept.append(group)
        else:
            kept += [group[:2], *group[2:]]
    return kept


def sheet(story: Sequence[Flowable], running: Running, paper: str = "a4") -> bytes:
    """The PDF of a sheet: the same rows give the same bytes."""
    (width, height), out = PAPER[paper], BytesIO()
    inner, top = width - 2 * MARGIN, height - EDGE
    foot = line(running.foot, "small")
    bottom = EDGE + foot.wrap(inner - 30 * mm, 100 * mm)[1] + 3 * mm

    def template(name: str, *, first: bool, after: str | None = None) -> PageTemplate:
        head = _Head(running, inner, first=first)

        def dress(canvas: Canvas, document: BaseDocTemplate) -> None:
            canvas.saveState()
            head.draw(canvas, top)
            foot.drawOn(canvas, MARGIN, EDGE)
            canvas.restoreState()

        frame = Frame(
            MARGIN, bottom, inner, top - head.height - bottom,
            leftPadding=0, rightPadding=0, topPadding=1 * mm, bottomPadding=0,
        )  # fmt: skip
        return PageTemplate(name, [frame], onPage=dress, autoNextPageTemplate=after)

    document = BaseDocTemplate(
        out,
        pagesize=PAPER[paper],
        title=drawable(running.title),
        author="Witness Mark",
        lang="en-GB",
        invariant=1,
    )
    document.addPageTemplates([template("first", first=True, after="later"), template("later", first=False)])
    document.build(list(story), canvasmaker=_Numbered)
    return out.getvalue()

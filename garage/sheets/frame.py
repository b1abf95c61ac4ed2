"""The frame of every sheet: its tag at the head, the code that leads back, the pages counted."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from reportlab.lib.pagesizes import A4, LETTER, landscape
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
# A last page that is less full than this is spared where the rows, set smaller, have room on the pages before it:
# but no smaller than 8 points of the smallest letters are still read at arm's length; common practice, no source.
NEAR_EMPTY = 0.3
LEAST_SCALE = 0.86
WASTE = 0.02  # rows are not split, so that every page keeps a little room at its end


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


def sheet(
    story: Callable[[], Sequence[Flowable]],
    running: Running,
    paper: str = "a4",
    *,
    spares: bool = True,
    wide: bool = False,
) -> bytes:
    """The PDF of a sheet: the same rows give the same bytes.

    `story` gives them anew for every try; `spares` a last page that is nearly empty, which is wrong where rows begin
    pages on purpose; `wide` lays the paper on its side.
    """
    size = landscape(PAPER[paper]) if wide else PAPER[paper]
    first = _Document(running, size)
    data = first.drawn(story())
    scale = first.sparing_scale() if spares else None
    if scale is None:
        return data
    closer = _Document(running, size, scale)
    spared = closer.drawn(story())
    return spared if len(closer.used) < len(first.used) else data


class _Document(BaseDocTemplate):
    """A sheet's pages, its rows drawn at `scale`, and how much of each page they took (points of the paper)."""

    def __init__(self, running: Running, size: tuple[float, float], scale: float = 1.0) -> None:
        self.scale = scale
        self.used: list[float] = []
        self.room: list[float] = []
        self.out = BytesIO()
        super().__init__(
            self.out,
            pagesize=size,
            title=drawable(running.title),
            author="Witness Mark",
            lang="en-GB",
            invariant=1,
        )
        self.foot = line(running.foot, "fine")
        inner = size[0] - 2 * MARGIN
        self.bottom = EDGE + self.foot.wrap(inner - 30 * mm, 100 * mm)[1] + 3 * mm
        heads = _Head(running, inner, first=True), _Head(running, inner, first=False)
        self.addPageTemplates([self._template("first", heads[0], after="later"), self._template("later", heads[1])])

    def _template(self, name: str, head: _Head, after: str | None = None) -> PageTemplate:
        scale, top = self.scale, self.pagesize[1] - EDGE

        def dress(canvas: Canvas, _: BaseDocTemplate) -> None:
            canvas.saveState()
            head.draw(canvas, top)
            self.foot.drawOn(canvas, MARGIN, EDGE)
            canvas.restoreState()
            canvas.saveState()
            canvas.scale(scale, scale)

        def leave(canvas: Canvas, _: BaseDocTemplate) -> None:
            canvas.restoreState()

        frame = Frame(
            MARGIN / scale, self.bottom / scale, head.width / scale, (top - head.height - self.bottom) / scale,
            leftPadding=0, rightPadding=0, topPadding=1 * mm, bottomPadding=0,
        )  # fmt: skip
        return PageTemplate(name, [frame], onPage=dress, onPageEnd=leave, autoNextPageTemplate=after)

    def drawn(self, story: Sequence[Flowable]) -> bytes:
        self.build(list(story), canvasmaker=_Numbered)
        return self.out.getvalue()

    def afterPage(self) -> None:
        frame = self.frame
        self.used.append((frame._y2 - frame._y) * self.scale)
        self.room.append(frame._height * self.scale)

    def sparing_scale(self) -> float | None:
        """How small the rows must be for the last page not to be needed; None where it is full enough, or they
        would be too small to read."""
        if len(self.used) < 2 or self.used[-1] > NEAR_EMPTY * self.room[-1]:
            return None
        scale = sum(self.room[:-1]) / sum(self.used)
        return max(min(scale - WASTE, 1 - WASTE), LEAST_SCALE) if scale > LEAST_SCALE - WASTE else None

"""The whole way of the plan as a picture: a lane a person, cures through the nights, stripped cars, events as edges."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from builds.paper.sheets.plan_block import block
from builds.plan.pages import lanes
from builds.plan.pages.lanes import Lane, Mark
from builds.plan.pages.strip import Strip
from garage.sheets.fit import fitted
from garage.sheets.fonts import BODY, BOLD, drawable
from garage.sheets.hazard import hatching
from garage.sheets.kit import line
from garage.sheets.tag import Box

NAMES = 25 * mm  # the names of the lanes, left of the picture
DAYS, EDGE, BAR = 8.5 * mm, 4.4 * mm, 5 * mm  # the heads of the days, a line of an event, a cure or a stay
LEAST, MOST, ALONE = 14 * mm, 32 * mm, 9 * mm  # a lane of a person; of what nobody at home does
WORDS = 7.5  # points
OFF, NIGHT = 0.93, 0.84  # greys
READ = (
    "Thick frame: safety. Dashed frame: wanted. At the foot of a job: its car. Hatched: cures by itself. Grey: not in. "
    "Dark: nobody works. Bold: late. Without a name: too short for it."
)


@dataclass(frozen=True)
class _Band:
    """What is drawn beside each other under one name."""

    name: str
    kind: str
    off: tuple[Mark, ...]
    marks: tuple[Mark, ...]


class PlanStrip(Flowable):
    """As high as there is room for; what does not go on a page goes to the next. `marks` are letter and tape of a car
    by its name."""

    def __init__(
        self, strip: Strip, marks: Mapping[str, tuple[str, str]], bands: Sequence[_Band] | None = None
    ) -> None:
        super().__init__()
        self.strip, self.marks, self.bands, self.read = strip, marks, bands, line(READ, "fine")

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.reads = width, self.read.wrap(width, height)[1] + 1 * mm
        if self.bands is None:
            self.bands = tuple(_bands(self.strip.lanes, width - NAMES))
        people, self.lane = sum(band.kind == "person" for band in self.bands), 0.0
        fixed = self._head + sum(map(self._tall, self.bands)) + 2 * mm
        self.lane = min(MOST, max(LEAST, (height - fixed) / max(1, people)))
        self.height = fixed + self.lane * people
        return width, self.height

    @property
    def _head(self) -> float:
        return self.reads + DAYS + EDGE * len(self.strip.edges)

    def split(self, width: float, height: float) -> list[Flowable]:
        """Only where a whole page is too low for it."""
        self.wrap(width, height)
        if not self._frame._atTop:
            return []
        room, fits = height - self._head - 2 * mm, 0
        for band in self.bands or ():
            room -= self._tall(band)
            if room < 0:
                break
            fits += 1
        if not fits or self.bands is None or fits == len(self.bands):
            return []
        return [PlanStrip(self.strip, self.marks, bands) for bands in (self.bands[:fits], self.bands[fits:])]

    def _tall(self, band: _Band) -> float:
        return self.lane if band.kind == "person" else ALONE if band.kind == "alone" else BAR

    def draw(self) -> None:
        canvas, self.room = self.canv, self.width - NAMES
        top = self.height - self._head
        bands = list(self._placed(top))
        self.read.drawOn(canvas, 0, self.height - self.read.height)
        canvas.saveState()
        self._grounds(bands, top)
        self._days(top)
        for band, y, tall in bands:
            self._band(band, y, tall)
        self._edges()
        canvas.restoreState()

    def _placed(self, top: float) -> Iterator[tuple[_Band, float, float]]:
        """Each with its lower edge and its height."""
        for band in self.bands or ():
            tall = self._tall(band)
            top -= tall
            yield band, top, tall

    def _x(self, share: float) -> float:
        return NAMES + self.room * share / 100

    def _grounds(self, bands: Iterable[tuple[_Band, float, float]], top: float) -> None:
        """Hours in which somebody is not in, and the nights."""
        canvas = self.canv
        canvas.setFillGray(OFF)
        for band, y, tall in bands:
            for mark in band.off:
                canvas.rect(self._x(mark.x), y, self.room * mark.width / 100, tall, stroke=0, fill=1)
        canvas.setFillGray(NIGHT)
        for x, width in self.strip.folds:
            canvas.rect(self._x(x), 2 * mm, self.room * width / 100, top - 2 * mm, stroke=0, fill=1)
        canvas.setFillGray(0)

    def _days(self, top: float) -> None:
        canvas = self.canv
        canvas.setLineWidth(0.4)
        for day in self.strip.days:
            x, wide = self._x(day.x), self.room * day.width / 100
            canvas.line(x, 2 * mm, x, top + DAYS)
            name = fitted(day.name, wide - 1.2 * mm, 5 * mm, (9, 8, 7), BOLD)
            if len(name.lines) == 1 and "…" not in name.lines[0]:
                name.draw(canvas, x + 0.8 * mm, top + DAYS - 0.2 * mm)
                _said(canvas, day.hours, x + 0.8 * mm, top + 1.2 * mm, wide - 1.2 * mm)
            else:
                _said(canvas, day.short, x + 0.3 * mm, top + DAYS - 3 * mm, wide)

    def _band(self, band: _Band, y: float, tall: float) -> None:
        canvas = self.canv
        canvas.setLineWidth(0.6)
        if band.name:
            canvas.line(0, y + tall, self.width, y + tall)
            face = BODY if band.kind in ("cure", "hold") else BOLD
            fitted(band.name, NAMES - 2 * mm, tall, (9.5, 8.5, 7.5, 6.5), face).draw(canvas, 0, y + tall - 0.6 * mm)
        canvas.line(NAMES, 2 * mm, NAMES, y + tall)
        for mark in band.marks:
            x, wide = self._x(mark.x), self.room * mark.width / 100
            if band.kind in ("person", "alone"):
                letter, colour = self.marks[mark.car]
                block(canvas, Box(x, y + 0.8 * mm, wide, tall - 1.6 * mm), mark, letter, colour)
            else:
                _bar(canvas, Box(x, y + 0.8 * mm, wide, BAR - 1.6 * mm), mark, self.room)

    def _edges(self) -> None:
        canvas, y = self.canv, self.height - self.reads
        canvas.setLineWidth(1.6)
        for edge in self.strip.edges:
            x, y = self._x(edge.x), y - EDGE
            canvas.line(x, 2 * mm, x, y + EDGE)
            words = fitted(edge.words, edge.room * self.room / 100 - 2 * mm, EDGE, (9, 8, 7, 6), BOLD)
            wide = max(stringWidth(said, BOLD, words.size) for said in words.lines)
            left = x + 1.2 * mm if edge.from_left else x - 1.2 * mm - wide
            _cleared(canvas, Box(left, y, wide, EDGE))
            words.draw(canvas, left, y + EDGE - 0.4 * mm)


def _said(canvas: Canvas, words: str, x: float, y: float, room: float) -> None:
    """Small words where there is room for all of them."""
    words = drawable(words)
    if stringWidth(words, BODY, 7) <= room:
        canvas.setFont(BODY, 7)
        canvas.drawString(x, y, words)


def _bands(drawn: Iterable[Lane], room: float) -> Iterator[_Band]:
    """As on the screen, but what has room beside each other on paper in one band."""
    named: list[list[Lane]] = []
    for lane in drawn:
        if lane.name or not named:
            named.append([])
        named[-1].append(lane)
    for first, *more in named:
        if first.kind == "person":
            yield _Band(first.name, "alone" if first.name == lanes.ALONE else "person", first.off, first.marks)
            continue
        marks = sorted((mark for lane in (first, *more) for mark in lane.marks), key=lambda mark: mark.x)
        for number, together in enumerate(_packed(marks, room)):
            yield _Band("" if number else first.name, first.kind, (), tuple(together))


def _packed(marks: Iterable[Mark], room: float) -> list[list[Mark]]:
    bands: list[list[Mark]] = []
    for mark in marks:
        begin, _ = _reach(mark, room)
        free = next((band for band in bands if _reach(band[-1], room)[1] < begin), None)
        if free is None:
            bands.append(free := [])
        free.append(mark)
    return bands


def _words(mark: Mark, room: float) -> str:
    """Of a bar, no longer than leaves room for it."""
    return " ".join(fitted(f"{mark.words}{mark.below}", 0.45 * room, BAR, (WORDS,)).lines)


def _reach(mark: Mark, room: float) -> tuple[float, float]:
    """From where to where a bar and its words stand, per cent."""
    begin, wide = _beside(mark, room)
    return min(mark.x, begin), max(mark.x + mark.width, begin + wide)


def _beside(mark: Mark, room: float) -> tuple[float, float]:
    """Where its words begin, and how wide they are, per cent: in the bar, else behind it, else before it."""
    wide, end = 100 * (stringWidth(_words(mark, room), BODY, WORDS) + 3 * mm) / room, mark.x + mark.width
    if wide <= mark.width:
        return mark.x, wide
    return (end, wide) if end + wide <= 100 else (max(0.0, mark.x - wide), wide)


def _bar(canvas: Canvas, box: Box, mark: Mark, room: float) -> None:
    """A cure hatched, a stay as a thick line, each with its words in it or beyond its end."""
    begin, wide = (share * room / 100 for share in _beside(mark, room))
    if mark.kind == "cure":
        hatching(canvas, box)
    else:
        canvas.rect(box.x, box.y + box.height / 2 - 0.6 * mm, box.width, 1.2 * mm, stroke=0, fill=1)
    x = NAMES + begin
    _cleared(canvas, Box(x + 1 * mm, box.y - 0.1 * mm, wide - 2 * mm, box.height + 0.2 * mm))
    canvas.setFont(BODY, WORDS)
    canvas.drawString(x + 1.5 * mm, box.y + 0.7 * mm, _words(mark, room))


def _cleared(canvas: Canvas, box: Box) -> None:
    """Paper left blank under words."""
    canvas.saveState()
    canvas.setFillGray(1)
    canvas.rect(*box, stroke=0, fill=1)
    canvas.restoreState()

"""The coming evenings in two columns: as many lines as the page holds, then a line a day that says what is left out."""

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from builds.plan.pages.day_list import Day, PlanLine, holds_words
from garage.sheets.kit import line, runs
from garage.sheets.tag import Box
from garage.sheets.tapes import tape

APART = 7 * mm
TIME, WHO, MARK = 21.5 * mm, 22 * mm, 4.6 * mm
WHOLE = 105 * mm  # with less than this of a page left they begin the next, unless all of them go there
SUMMED = 12  # days that have a line each beyond those that are told
ASIDE = 8  # things of a sort that are told aside
Marks = Mapping[str, tuple[str, str]]


class EveningRow(Flowable):
    """A line of the plan: when, who, which car, what and where."""

    def __init__(self, told: PlanLine, marks: Marks) -> None:
        super().__init__()
        self.width = 0.0
        until = f"–{told.until}" if told.until and not told.curing else ""
        self.mark, self.colour = marks[told.car]
        self.time = line(f"{told.since}{until}", "fine")
        self.who = line("cures" if told.curing else told.who, "fine")
        self.what = runs([(told.title, "bold"), (_said(told), "")], "fine")

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        if self.width != width:
            self.width, wide = width, (TIME, WHO - 2 * mm, width - TIME - WHO - MARK - 1.5 * mm)
            pieces = zip((self.time, self.who, self.what), wide, strict=True)
            self.height = max(words.wrap(room, height)[1] for words, room in pieces) + 1.1 * mm
        return width, self.height

    def draw(self) -> None:
        top = self.height - 0.3 * mm
        for words, left in ((self.time, 0), (self.who, TIME), (self.what, TIME + WHO + MARK + 1.5 * mm)):
            words.drawOn(self.canv, left, top - words.height)
        tape(self.canv, Box(TIME + WHO, top - 3.5 * mm, MARK, 3.3 * mm), self.colour, self.mark)


def _said(told: PlanLine) -> str:
    """`late. Safety. Part 1 of 2. Lift.` beside its name; of what cures, until when and what for."""
    if told.curing:
        words = [*told.notes, f"ready {told.until}"]
    else:
        rank = told.rank if told.rank == "safety" else ""
        words = ["late" if told.late else "", rank, f"part {told.part}" if told.part else "", told.where]
    said = ", ".join(filter(None, words))
    return f"– {said}" if said else ""


class Heading(Flowable):
    """A day, with what it holds; a line over it."""

    def __init__(self, title: str, holds: str = "") -> None:
        super().__init__()
        self.words = runs([(title, "bold"), (holds, "fine")], "name")

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.height = width, self.words.wrap(width, height)[1] + 3.4 * mm
        return width, self.height

    def draw(self) -> None:
        self.canv.setLineWidth(0.8)
        self.canv.line(0, self.height - 1.6 * mm, self.width, self.height - 1.6 * mm)
        self.words.drawOn(self.canv, 0, self.height - 1.9 * mm - self.words.height)


@dataclass(frozen=True)
class _Placed:
    piece: Flowable
    column: int
    top: float


class Evenings(Flowable):
    """`aside` gives what stands at the head of the right column, with at most so many things of a sort."""

    def __init__(self, days: Sequence[Day], marks: Marks, aside: Callable[[int], Sequence[Flowable]]) -> None:
        super().__init__()
        self.days, self.aside = days, aside
        self.told = [[EveningRow(told, marks) for told in day.lines] for day in days]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.column = width, (width - APART) / 2
        aside, lines = self.aside(ASIDE), sum(len(day.lines) for day in self.days)
        placed = self._placed(aside, lines, height)
        if placed is None and height < WHOLE and not self._frame._atTop:
            self.height = WHOLE
            return width, self.height
        self.placed = placed or self._less(aside, lines, height)
        self.height = max([piece.top + piece.piece.height for piece in self.placed], default=0)
        return width, self.height

    def _less(self, aside: Sequence[Flowable], lines: int, height: float) -> list[_Placed]:
        """As many lines as there is room for; where there is none for any, less aside."""
        fewer = bisect_left(range(lines), True, key=lambda less: bool(self._placed(aside, lines - less, height)))
        if placed := self._placed(aside, lines - fewer, height):
            return placed
        tries = (self._placed(self.aside(most), 0, height) for most in reversed(range(ASIDE)))
        return next(filter(None, tries), [])

    def _placed(self, aside: Sequence[Flowable], count: int, height: float) -> list[_Placed] | None:
        """Where all stands with so many lines told; None where that is more than the columns hold."""
        placed, tops, column = [], [0.0, 0.0], 0
        for piece in aside:
            tall = piece.wrap(self.column, height)[1]
            placed.append(_Placed(piece, 1, tops[1]))
            tops[1] += tall
        if tops[1] > height:
            return None
        for title, group in self._groups(count):
            tall = sum(piece.wrap(self.column, height)[1] for piece in group)
            if tops[column] + tall > height:
                column += 1
                if title:
                    group.insert(0, Heading(f"{title}, the rest"))
                    tall += group[0].wrap(self.column, height)[1]
            if column > 1 or tops[column] + tall > height:
                return None
            for piece in group:
                placed.append(_Placed(piece, column, tops[column]))
                tops[column] += piece.height
        return placed

    def _groups(self, count: int) -> Iterator[tuple[str, list[Flowable]]]:
        """Pieces that are not torn apart: a heading stays with what is below it. Without one, whose rest it is."""
        summed: list[Day] = []
        for day, told in zip(self.days, self.told, strict=True):
            shown = told[:count]
            count -= len(shown)
            if not shown:
                summed.append(day)
                continue
            first, *others = shown
            yield "", [Heading(day.title, day.holds), first]
            yield from ((day.title, [piece]) for piece in others)
            if rest := day.lines[len(shown) :]:
                yield "", [line(f"The rest of {day.near.lower() or day.label}: {holds_words(rest)}.", "fine bold")]
        yield from _summed(summed)

    def draw(self) -> None:
        for placed in self.placed:
            left = placed.column * (self.column + APART)
            placed.piece.drawOn(self.canv, left, self.height - placed.top - placed.piece.height)


def _summed(days: Sequence[Day]) -> Iterator[tuple[str, list[Flowable]]]:
    """A line a day; those after many in one line."""
    if not days:
        return
    lines: list[Flowable] = [line(f"{day.label}: {day.holds}", "fine") for day in days[:SUMMED]]
    if far := days[SUMMED:]:
        count = f"{len(far)} more day{'s' * (len(far) != 1)}, until {far[-1].label}"
        lines.append(line(f"{count}: {holds_words([told for day in far for told in day.lines])}", "fine"))
    title = "On the page of the plan alone"
    yield "", [Heading(title), lines[0]]
    yield from ((title, [piece]) for piece in lines[1:])

"""The trend of a kind of reading, drawn: one sheet for the figures that share a unit."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from django.utils import timezone

from builds.readings.engine.fields import Field
from builds.readings.engine.figures import figure, figure_words, with_unit
from builds.readings.engine.judge import Goal
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.signs import with_sign
from builds.readings.engine.trend import Sheet, across, apart, down, round_steps
from builds.readings.models.reading import Reading
from garage.engine.units import number_words

SHEET = Sheet()
DASHES = ("", "8 4", "2 4", "10 4 2 4")
LABEL_HEIGHT = 18


@dataclass(frozen=True)
class Curve:
    """One line: the path through its points, and its name where it ends."""

    label: str
    points: str
    dots: tuple[tuple[float, float], ...]
    dash: str
    label_y: float
    last: str


@dataclass(frozen=True)
class Trend:
    """A drawing, told in `title` and `says` too; `bands` are where figures should lie."""

    id: str
    title: str
    says: str
    sheet: Sheet
    steps: tuple[tuple[str, float], ...]
    courses: tuple[Curve, ...]
    bands: tuple[tuple[float, float], ...]
    first: str
    last: str

    @property
    def ground_right(self) -> int:
        return self.sheet.width - self.sheet.right

    @property
    def band_width(self) -> int:
        return self.ground_right - self.sheet.left

    @property
    def steps_x(self) -> int:
        return self.sheet.left - 8

    @property
    def label_x(self) -> int:
        return self.ground_right + 12

    @property
    def foot(self) -> int:
        return self.sheet.height - 12


@dataclass(frozen=True)
class TrendLine:
    """A field's amounts where it was read, and the dots (x, y) at which they are drawn."""

    field: Field
    amounts: tuple[int, ...]
    dots: tuple[tuple[float, float], ...]

    def told(self, number: int, system: str) -> str:
        return figure_words(self.field, self.amounts[number], system)


@dataclass(frozen=True)
class Plot:
    """Fields that share a unit, each reading's moment and amounts by field, and their goals."""

    fields: tuple[Field, ...]
    taken: tuple[tuple[datetime, Mapping[str, int | None]], ...]
    goals: Mapping[str, Goal]
    system: str

    def ends(self) -> Iterator[Fraction]:
        """Every figure that must find room on the sheet."""
        for _, amounts in self.taken:
            for field in self.fields:
                if (amount := amounts.get(field.slug)) is not None:
                    yield figure(field, amount, self.system)
        for field in self.fields:
            if goal := self.goals.get(field.slug):
                yield from (figure(field, end, self.system) for end in (goal.least, goal.most) if end is not None)

    def lines(self, low: Fraction, high: Fraction) -> list[TrendLine]:
        marks = across([moment for moment, _ in self.taken], SHEET)
        drawn = []
        for field in self.fields:
            known = [
                (x, amount)
                for x, (_, amounts) in zip(marks, self.taken, strict=True)
                if (amount := amounts.get(field.slug)) is not None
            ]
            if known:
                heights = down([figure(field, amount, self.system) for _, amount in known], low, high, SHEET)
                dots = tuple(zip((x for x, _ in known), heights, strict=True))
                drawn.append(TrendLine(field, tuple(amount for _, amount in known), dots))
        return drawn

    def bands(self, low: Fraction, high: Fraction) -> Iterator[tuple[float, float]]:
        """Top and height of each stretch in which figures should lie, open ends to the sheet's own."""
        for field in self.fields:
            goal = self.goals.get(field.slug)
            if goal is None:
                continue
            edges = [
                open_end if end is None else figure(field, end, self.system)
                for end, open_end in ((goal.most, high), (goal.least, low))
            ]
            top, bottom = down(edges, low, high, SHEET)
            yield top, max(2.0, round(bottom - top, 1))


def trends(kind: ReadingKind, readings: Sequence[Reading], goals: Mapping[str, Goal], system: str) -> tuple[Trend, ...]:
    """Drawings of readings that stand, oldest first; one for each unit, none below two readings."""
    units: dict[str, list[Field]] = {}
    for field in kind.figures:
        units.setdefault(field.unit(system), []).append(field)
    values = [(reading.at, {value.field: value.amount for value in reading.values.all()}) for reading in readings]
    drawings = []
    for number, (unit, fields) in enumerate(units.items()):
        taken = [reading for reading in values if any(reading[1].get(field.slug) is not None for field in fields)]
        if len(taken) > 1:
            label = with_sign(kind.label, kind.slug)
            title = f"{label}, {unit}" if unit else label
            drawings.append(_trend(Plot(tuple(fields), tuple(taken), goals, system), f"trend-{number}", title, unit))
    return tuple(drawings)


def _trend(plot: Plot, name: str, title: str, unit: str) -> Trend:
    ends = list(plot.ends())
    steps = round_steps(min(ends), max(ends))
    low, high = steps[0], steps[-1]
    lines = plot.lines(low, high)
    first, last = (timezone.localtime(plot.taken[index][0]) for index in (0, -1))
    step_words = (with_unit(number_words(step, 3), unit) for step in steps)
    return Trend(
        id=name,
        title=title,
        says=" ".join(
            f"{line.field.label}: from {line.told(0, plot.system)} to {line.told(-1, plot.system)}." for line in lines
        ),
        sheet=SHEET,
        steps=tuple(zip(step_words, down(steps, low, high, SHEET), strict=True)),
        courses=tuple(_curves(lines, plot.system)),
        bands=tuple(plot.bands(low, high)),
        first=f"{first.day} {first:%b %Y}",
        last=f"{last.day} {last:%b %Y}",
    )


def _curves(lines: Sequence[TrendLine], system: str) -> Iterator[Curve]:
    labels = apart([line.dots[-1][1] for line in lines], LABEL_HEIGHT)
    for index, (line, label_y) in enumerate(zip(lines, labels, strict=True)):
        points = " ".join(f"{x},{y}" for x, y in line.dots)
        dash = DASHES[index % len(DASHES)]
        yield Curve(line.field.label, points, line.dots, dash, label_y + 5, line.told(-1, system))

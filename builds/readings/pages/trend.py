"""The trend of a kind of reading, drawn: one sheet for the figures that share a unit."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from django.utils import timezone

from builds.readings.engine.fields import Field
from builds.readings.engine.figures import figure, figure_words, with_unit
from builds.readings.engine.judge import Goal
from builds.readings.engine.trend import Sheet, across, apart, down, round_steps
from builds.readings.facts.kinds import ReadingKind
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


def trends(kind: ReadingKind, readings: Sequence[Reading], goals: Mapping[str, Goal], system: str) -> tuple[Trend, ...]:
    """Drawings of readings that stand, oldest first; one for each unit, none below two readings."""
    units: dict[str, list[Field]] = {}
    for row in kind.figures:
        units.setdefault(row.unit(system), []).append(row)
    found = [
        _trend(kind, rows, readings, goals, system, unit, number) for number, (unit, rows) in enumerate(units.items())
    ]
    return tuple(each for each in found if each)


def _trend(
    kind: ReadingKind,
    rows: Sequence[Field],
    readings: Sequence[Reading],
    goals: Mapping[str, Goal],
    system: str,
    unit: str,
    number: int,
) -> Trend | None:
    taken = [(each, {value.field: value.amount for value in each.values.all()}) for each in readings]
    taken = [each for each in taken if any(each[1].get(row.slug) is not None for row in rows)]
    if len(taken) < 2:
        return None
    places = across([reading.at for reading, _ in taken], SHEET)
    ends = list(_ends(rows, (amounts for _, amounts in taken), goals, system))
    steps = round_steps(min(ends), max(ends))
    low, high = steps[0], steps[-1]
    drawn = []
    for row in rows:
        known = [
            (x, amount)
            for x, (_, amounts) in zip(places, taken, strict=True)
            if (amount := amounts.get(row.slug)) is not None
        ]
        if known:
            heights = down([figure(row, amount, system) for _, amount in known], low, high, SHEET)
            dots = tuple(zip((x for x, _ in known), heights, strict=True))
            drawn.append((row, dots, known))
    labels = apart([dots[-1][1] for _, dots, _ in drawn], LABEL_HEIGHT)
    first, last = (timezone.localtime(taken[place][0].at) for place in (0, -1))
    return Trend(
        id=f"trend-{number}",
        title=f"{kind.label}, {unit}" if unit else kind.label,
        says=" ".join(
            f"{row.label}: from {figure_words(row, known[0][1], system)} to {figure_words(row, known[-1][1], system)}."
            for row, _, known in drawn
        ),
        sheet=SHEET,
        steps=tuple(
            zip(
                (with_unit(number_words(step, 3), unit) for step in steps),
                down(steps, low, high, SHEET),
                strict=True,
            )
        ),
        courses=tuple(
            Curve(
                row.label,
                " ".join(f"{x},{y}" for x, y in dots),
                dots,
                DASHES[place % len(DASHES)],
                label + 5,
                figure_words(row, known[-1][1], system),
            )
            for place, ((row, dots, known), label) in enumerate(zip(drawn, labels, strict=True))
        ),
        bands=tuple(_bands(rows, goals, system, low, high)),
        first=f"{first.day} {first:%b %Y}",
        last=f"{last.day} {last:%b %Y}",
    )


def _ends(
    rows: Sequence[Field],
    amounts: Iterable[Mapping[str, int | None]],
    goals: Mapping[str, Goal],
    system: str,
) -> Iterable[Fraction]:
    for each in amounts:
        for row in rows:
            if (amount := each.get(row.slug)) is not None:
                yield figure(row, amount, system)
    for row in rows:
        if goal := goals.get(row.slug):
            yield figure(row, goal.target - goal.tolerance, system)
            yield figure(row, goal.target + goal.tolerance, system)


def _bands(
    rows: Sequence[Field],
    goals: Mapping[str, Goal],
    system: str,
    low: Fraction,
    high: Fraction,
) -> Iterable[tuple[float, float]]:
    """Top and height of each stretch in which figures should lie, each once."""
    for row, goal in {(goals[row.slug], row.slug): (row, goals[row.slug]) for row in rows
                      if row.slug in goals}.values():  # fmt: skip
        edges = [figure(row, goal.target + sign * goal.tolerance, system) for sign in (1, -1)]
        top, bottom = down(edges, low, high, SHEET)
        yield top, max(2.0, round(bottom - top, 1))

"""What a sum's page shows: its figures, its answers in the garage's units, its drawing."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.bench.catalogue import TOPICS, sum_called
from builds.bench.frame.drawing import Drawing, Label, Line, Ring
from builds.bench.frame.say import answer_said, table_said
from builds.bench.frame.sums import Sum, Worked
from builds.readings.engine.vocabulary import READINGS
from builds.sums.facts import CarFigure, disturbed
from builds.sums.models import KeptSum
from garage.clock import zone
from garage.engine.moments import moment_words
from garage.models import Vehicle

# A label's height as a part of the drawing's longer side, and the room left about it.
LETTERS, MARGIN = 1 / 24, 1 / 6


@dataclass(frozen=True)
class Picture:
    """A drawing ready for SVG: its view box, the height of its letters, points as SVG writes them."""

    title: str
    words: str
    box: str
    letters: float
    lines: tuple[tuple[str, str, bool], ...]
    rings: tuple[tuple[Ring, str], ...]
    labels: tuple[Label, ...]


@dataclass(frozen=True)
class SumView:
    answers: list[tuple[str, str]]
    warnings: tuple[str, ...]
    pictures: list[Picture]
    table: list[list[str]]
    table_title: str


def sums_found(wanted: str) -> list[tuple[str, list[Sum]]]:
    """Sums by topic, those whose name, question or topic has each word of what is wanted."""
    words = wanted.lower().split()
    topics = []
    for topic, all_sums in TOPICS.items():
        said = [(one, f"{topic} {one.title} {one.question} {one.slug}".lower()) for one in all_sums]
        if kept := [one for one, text in said if all(word in text for word in words)]:
            topics.append((topic, kept))
    return topics


def known_words(asked: Sum, known: Mapping[str, CarFigure], vehicle: Vehicle, at: datetime) -> list[str]:
    """Where the figures of a car come from, a sentence for each source, and what was done to it since."""
    kept: dict[str, KeptSum] = {}
    read: list[str] = []
    for ask in asked.asks:
        figure = known.get(ask.figure) or known.get(ask.reading)
        if figure and figure.kept:
            kept.setdefault(figure.kept.name, figure.kept)
        elif figure and figure.reading not in read:
            read.append(figure.reading)
    said = [f"{READINGS[kind].label}: the newest reading that stands." for kind in read]
    hit = disturbed(vehicle, list(kept.values()))
    for one in kept.values():
        source = sum_called(one.name)
        title = source.title if source else one.name
        said.append(f"As kept with “{title}” by {one.by.name} on {moment_words(one.at, zone(), at)}.")
        if work := hit.get(one.pk):
            ended = moment_words(work.ended, zone(), at)
            said.append(f"Since then “{work.title}” was done, on {ended}: see whether they still hold.")
    return said


def sum_view(worked: Worked | None, system: str) -> SumView:
    """What came of a sum, None where it could not be worked out, in the garage's units."""
    if worked is None:
        return SumView([], (), [], [], "")
    return SumView(
        answers=[(answer.label, answer_said(answer, system)) for answer in worked.answers],
        warnings=worked.warnings,
        pictures=[_picture(drawing) for drawing in (worked.drawing, *worked.more_drawings)],
        table=table_said(worked.table, system) if worked.table else [],
        table_title=worked.table.title if worked.table else "",
    )


def _picture(drawing: Drawing) -> Picture:
    left, top, width, height = drawing.bounds
    reach = max(width, height)
    room = reach * MARGIN
    box = f"{left - room:.4g} {top - room:.4g} {width + 2 * room:.4g} {height + 2 * room:.4g}"
    shapes = drawing.shapes
    return Picture(
        drawing.title,
        drawing.words,
        box,
        reach * LETTERS,
        tuple(
            (" ".join(f"{x:.5g},{y:.5g}" for x, y in shape.points), shape.look, shape.closed)
            for shape in shapes
            if isinstance(shape, Line)
        ),
        tuple((shape, shape.look) for shape in shapes if isinstance(shape, Ring)),
        tuple(shape for shape in shapes if isinstance(shape, Label)),
    )

"""What a sum's page shows: its figures, its answers in the garage's units, its drawing."""

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from builds.bench.catalogue import TOPICS
from builds.bench.frame.drawing import Drawing, Label, Line, Ring
from builds.bench.frame.lines import LEFT_OUT, toggled
from builds.bench.frame.say import answer_said, table_said
from builds.bench.frame.sums import Sum, Worked
from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.vocabulary import READINGS, in_measuring_order

# A label's height as a part of the drawing's longer side, and the room left about it.
LETTERS, MARGIN = 1 / 24, 1 / 6
MANY_ANSWERS, LONG_TABLE, WIDE_TABLE = 6, 8, 4  # what stands open on a phone


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
    """What stands open, and what is folded behind it: `more` answers, `frames`, a table that is `long`."""

    answers: list[tuple[str, str]]
    more: list[tuple[str, str]]
    warnings: tuple[str, ...]
    pictures: list[Picture]
    frames: list[Picture]
    table: list[list[str]]
    table_title: str
    table_folded: bool


def sums_found(wanted: str) -> list[tuple[str, list[Sum]]]:
    """Sums by topic, those whose name, question or topic has each word of what is wanted."""
    words = wanted.lower().split()
    topics = []
    for topic, all_sums in TOPICS.items():
        said = [(one, f"{topic} {one.title} {one.question} {one.slug}".lower()) for one in all_sums]
        if kept := [one for one, text in said if all(word in text for word in words)]:
            topics.append((topic, kept))
    return topics


@dataclass(frozen=True)
class WhatIf:
    """A line of a list, and where it leads to have it left out or put back."""

    line: str
    is_out: bool
    url: str


def what_ifs(asked: Sum, typed: Mapping[str, str], more: Mapping[str, str], path: str) -> list[WhatIf]:
    """Every line that can be left out and put back; `more` goes along with each address."""
    rows = []
    for ask in asked.asks:
        text = typed.get(ask.slug, "") if ask.what_if else ""
        for number, line in enumerate(text.splitlines()):
            if shown := line.strip().removeprefix(LEFT_OUT).strip():
                query = urlencode({**more, **typed, ask.slug: toggled(text, number)})
                rows.append(WhatIf(shown, line.strip().startswith(LEFT_OUT), f"{path}?{query}"))
    return rows


def voids_words(asked: Sum) -> list[str]:
    """The readings that the work it plans makes void, in measuring order; none where it plans none."""
    void = in_measuring_order(voided_by(asked.offered.kinds))
    return [READINGS[slug].label for slug in void]


def sum_view(asked: Sum, worked: Worked | None, system: str) -> SumView:
    """What came of a sum, None where it could not be worked out, in the garage's units."""
    if worked is None:
        return SumView([], [], (), [], [], [], "", False)
    said = [(answer.slug, answer.label, answer_said(answer, system)) for answer in worked.answers]
    first = set(asked.offered.checks) if len(said) > MANY_ANSWERS else {slug for slug, *_ in said}
    table = table_said(worked.table, system) if worked.table else []
    return SumView(
        answers=[(label, words) for slug, label, words in said if slug in first],
        more=[(label, words) for slug, label, words in said if slug not in first],
        warnings=worked.warnings,
        pictures=[_picture(worked.drawing)],
        frames=[_picture(drawing) for drawing in worked.more_drawings],
        table=table,
        table_title=worked.table.title if worked.table else "",
        table_folded=len(table) > LONG_TABLE or max(map(len, table), default=0) > WIDE_TABLE,
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

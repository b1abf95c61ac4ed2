"""The setup sheet: what was read last, what is wanted, and room for what is read next."""

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from builds.paper.pages.setup_sheet import SetupRows
from builds.readings.pages.setup import SetupKind, SetupValue
from builds.readings.pages.words import STATE_WORDS
from builds.sums.pages.kept import KeptRow
from builds.verdict.sheet import running
from garage.sheets.figures import FigureRow
from garage.sheets.frame import sheet
from garage.sheets.kit import gap, line, nothing, part, pieces, together
from garage.sheets.rows import Bullet


def setup_sheet(rows: SetupRows) -> bytes:
    """The sheet as PDF bytes."""
    story: list[Flowable] = []
    for kind in rows.kinds:
        story += together(part(f"{kind.label}: {STATE_WORDS[kind.state]}", _kind(kind)))
    if not rows.kinds:
        story += nothing("Nothing was read yet, and nothing is required.")
    story += part("Worked out", [_sum(one) for one in rows.sums])
    story += [gap(4 * mm), line(rows.estimate, "small")]
    return sheet(story, running(rows.head, f"Setup of {rows.car}", rows.what), rows.head.paper)


def _sum(row: KeptRow) -> list[Flowable]:
    """What was worked out, by whom; struck where work made it void."""
    figures = "; ".join(f"{label}: {figure}" for label, figure in row.checks)
    return [
        line(f"{row.title}, by {row.kept.by.name}, {row.when}. {row.void or row.done}".strip(), "bold"),
        *([line(f"{figures}.", "small", struck=bool(row.void))] if figures else []),
        *(line(warning, "bold") for warning in (*row.kept.warnings, *row.differs) if not row.void),
        gap(1.5 * mm),
    ]


def _judged(kind: SetupKind, value: SetupValue) -> str:
    if kind.lapsed:
        return "measure again" if value.value else ""
    return value.judged if value.target or value.judged != "not judged" else ""


def _kind(kind: SetupKind) -> list[Flowable]:
    """Why it does not stand, its figures, what follows from them, how it was measured."""
    taken = f"Taken {kind.taken} by {kind.by}." if kind.taken else ""
    said = " ".join(filter(None, [kind.words, taken, "" if kind.required else "Not required."]))
    beside = ", ".join(f"{label}: {words}" for label, words in kind.conditions)
    return [
        *([line(said, "bold" if kind.lapsed else "body")] if said else []),
        FigureRow(("", "last", "wanted", "in or out"), pen="now", style="small"),
        *(
            FigureRow((value.label, value.value, value.target, _judged(kind, value)), struck=kind.lapsed)
            for value in kind.values
        ),
        *(Bullet(f"{label}: {words}") for label, words in ([] if kind.lapsed else kind.derived)),
        *(line(words, "small") for words in (kind.limits, beside, kind.instrument) if words),
        *(line(piece, "small") for piece in pieces(kind.note)),
    ]

"""Job cards: a tag a job, with cautions, parts, where the work stops, and room for a pen."""

from reportlab.platypus import Flowable, PageBreak

from builds.today.pages.card_sheet import CardRows, CardSheet
from builds.verdict.sheet import running
from garage.sheets.cards import CautionBar, PenLine, Tag
from garage.sheets.frame import blocks, sheet
from garage.sheets.kit import line, nothing, part, pieces
from garage.sheets.rows import Bullet, TickRow


def job_cards(rows: CardSheet) -> bytes:
    """The sheet as PDF bytes: every person begins a page."""
    one = len(rows.hands) == 1
    return sheet(lambda: _story(rows), running(rows.head, rows.title), rows.head.paper, spares=one)


def _story(rows: CardSheet) -> list[Flowable]:
    story: list[Flowable] = []
    for hand in rows.hands:
        if story:
            story.append(PageBreak())
        story += part(hand.name, blocks([_card(card) for card in hand.cards], rows.head.paper))
    return story or nothing("Nothing is to be done.")


def _card(card: CardRows) -> list[Flowable]:
    """In the order of the work: at least a tag and the lines to write on."""
    return [
        Tag(card.title, card.facts, card.address),
        *([CautionBar(card.stop)] if card.stop else []),
        *(CautionBar(f"Caution: {text}") for text in card.cautions),
        *(Bullet(f"Not yet: {sentence}") for sentence in card.blocks),
        *(line(piece) for piece in pieces(card.note)),
        *(TickRow(part.what, part.note, mark=part.mark) for part in card.parts),
        *(TickRow(joint.what, joint.note, pen="torqued, initials") for joint in card.torques),
        *(Bullet(f"It should come to this: {sentence}") for sentence in card.sums),
        *(_point(point.what, point.note, point.mark) for point in card.points),
        TickRow("Done, tools counted, joints marked", pen="initials"),
        PenLine("started", "finished", "still left, hours"),
        PenLine("found on the way"),
    ]


def _point(what: str, note: str, mark: str) -> TickRow:
    words = note or "Stop: a second pair of eyes looks and signs before the work goes on."
    return TickRow(f"Hold point: {what}", words, pen="" if mark else "signed", mark=mark)

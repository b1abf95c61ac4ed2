"""Paper's words: the one place where text reaches ReportLab, and the styles it is set in."""

from collections.abc import Sequence
from textwrap import wrap
from xml.sax.saxutils import escape

from reportlab.lib.enums import TA_CENTER, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Paragraph, Spacer, Table

from garage.sheets.fonts import BODY, BOLD, drawable, register

LONGEST = 4000
LONGEST_PIECE = 500

register()
FINE = ParagraphStyle("fine", fontName=BODY, fontSize=8.5, leading=10)
NAME = ParagraphStyle("name", fontName=BOLD, fontSize=9.5, leading=11)
FIGURE = ParagraphStyle("figure", fontName=BOLD, fontSize=11.5, leading=12.5)
STYLES = {
    "body": ParagraphStyle("body", fontName=BODY, fontSize=11, leading=14.5),
    "small": ParagraphStyle("small", fontName=BODY, fontSize=9.5, leading=12.5),
    "bold": ParagraphStyle("bold", fontName=BOLD, fontSize=11, leading=14.5),
    "fine": FINE,
    "fine bold": ParagraphStyle("fine bold", parent=FINE, fontName=BOLD),
    "fine right": ParagraphStyle("fine right", parent=FINE, alignment=TA_RIGHT),
    "fine middle": ParagraphStyle("fine middle", parent=FINE, alignment=TA_CENTER),
    "name": NAME,
    "name middle": ParagraphStyle("name middle", parent=NAME, alignment=TA_CENTER),
    "figure": FIGURE,
    "figure right": ParagraphStyle("figure right", parent=FIGURE, alignment=TA_RIGHT),
    "title": ParagraphStyle("title", fontName=BOLD, fontSize=20, leading=24),
    "verdict": ParagraphStyle("verdict", fontName=BOLD, fontSize=12, leading=16),
    "part": ParagraphStyle("part", fontName=BOLD, fontSize=13, leading=17),
}


# How a piece of a paragraph may be set.
SET = {
    "": ("", ""),
    "bold": ("<b>", "</b>"),
    "struck": ("<strike>", "</strike>"),
    "small": ('<font size="9.5">', "</font>"),
    "fine": (f'<font face="{BODY}" size="{FINE.fontSize}">', "</font>"),
}


def pdf_text(text: str) -> str:
    """Text of anybody's as ReportLab may have it: no mark-up, nothing that cannot be drawn."""
    return escape(drawable(str(text)[:LONGEST])).replace("\n", "<br/>")


def line(text: str, style: str = "body", *, struck: bool = False) -> Paragraph:
    """A paragraph of plain text; `struck` with a line through it, as what counts no more."""
    drawn = pdf_text(text)
    return Paragraph(f"<strike>{drawn}</strike>" if struck and drawn else drawn, STYLES[style])


def runs(told: Sequence[tuple[str, str]], style: str = "body") -> Paragraph:
    """A paragraph of plain texts after each other, each with how it is set: bold, struck, or as the rest."""
    drawn = [(pdf_text(text), SET[how]) for text, how in told if text]
    return Paragraph(" ".join(begin + text + end for text, (begin, end) in drawn), STYLES[style])


def pieces(text: str) -> list[str]:
    """Long text as paragraphs that any page can hold."""
    return [piece for paragraph in text[:LONGEST].splitlines() for piece in wrap(paragraph, LONGEST_PIECE)]


def part(title: str, rows: Sequence[Flowable | list[Flowable]]) -> list[Flowable]:
    """Rows under a heading that comes again on every page they flow to.

    A list of pieces is one row. Nothing for no rows.
    """
    if not rows:
        return []
    table = Table(
        [[line(title, "part")], *([piece] for piece in rows)],
        colWidths=["100%"],
        repeatRows=1,
        style=[
            ("LEFTPADDING", (0, 0), (-1, -1), 0),
            ("RIGHTPADDING", (0, 0), (-1, -1), 0),
            ("TOPPADDING", (0, 0), (-1, -1), 0),
            ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
            ("TOPPADDING", (0, 0), (0, 0), 4 * mm),
            ("BOTTOMPADDING", (0, 0), (0, 0), 1.5 * mm),
        ],
    )
    return [table]


def together(rows: list[Flowable]) -> list[Flowable]:
    """On one page, unless they are more than a page holds."""
    return [KeepTogether(rows)] if rows else []


def gap(height: float) -> Spacer:
    return Spacer(1, height)


def nothing(text: str) -> list[Flowable]:
    """What a sheet says instead of rows."""
    return [gap(4 * mm), line(text)]

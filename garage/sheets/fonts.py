"""The sheets' lettering, and what becomes of characters that it has no shape for."""

from functools import cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

# Carried along, since a new machine may have no font at all and ReportLab's own stop at Latin.
FACES = Path(__file__).parent / "faces"
BODY, BOLD = "Sheet", "Sheet-Bold"
NO_SHAPE = "\N{WHITE SQUARE}"


@cache
def register() -> frozenset[int]:
    """Make the two faces known to ReportLab; the code points that both can draw."""
    faces = [
        TTFont(BODY, str(FACES / "DejaVuSans.ttf")),
        TTFont(BOLD, str(FACES / "DejaVuSans-Bold.ttf")),
    ]
    for face in faces:
        pdfmetrics.registerFont(face)
    pdfmetrics.registerFontFamily(BODY, normal=BODY, bold=BOLD, italic=BODY, boldItalic=BOLD)
    return frozenset(faces[0].face.charToGlyph) & frozenset(faces[1].face.charToGlyph)


def drawable(text: str) -> str:
    """The text with what has no shape as an empty box, blanks plain, what is unseen left out."""
    known = register()
    return "".join(
        "\n" if char == "\n" else " " if char.isspace() else char if ord(char) in known else NO_SHAPE
        for char in text
        if char.isprintable() or char.isspace()
    )

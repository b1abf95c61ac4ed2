"""The sheets' lettering, and what becomes of characters that it has no shape for."""

from functools import cache
from pathlib import Path

import reportlab
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

# Debian's DejaVu knows most scripts; ReportLab's own Vera, its ancestor, the Latin ones.
DEJAVU = Path("/usr/share/fonts/truetype/dejavu")
VERA = Path(reportlab.__file__).parent / "fonts"
BODY, BOLD = "Sheet", "Sheet-Bold"
NO_SHAPE = "\N{WHITE SQUARE}"


@cache
def register() -> frozenset[int]:
    """Make the two faces known to ReportLab; the code points that both can draw."""
    own = (DEJAVU / "DejaVuSans.ttf", DEJAVU / "DejaVuSans-Bold.ttf")
    if not all(file.exists() for file in own):
        own = (VERA / "Vera.ttf", VERA / "VeraBd.ttf")
    faces = [TTFont(name, str(file)) for name, file in zip((BODY, BOLD), own, strict=True)]
    for face in faces:
        pdfmetrics.registerFont(face)
    pdfmetrics.registerFontFamily(BODY, normal=BODY, bold=BOLD, italic=BODY, boldItalic=BOLD)
    return frozenset(faces[0].face.charToGlyph) & frozenset(faces[1].face.charToGlyph)


def drawable(text: str) -> str:
    """The text with what cannot be drawn as an empty box, and what cannot be seen left out."""
    known = register()
    box = NO_SHAPE if ord(NO_SHAPE) in known else "?"
    return "".join(
        char if ord(char) in known or char == "\n" else box
        for char in text
        if char.isprintable() or char == "\n"
    )

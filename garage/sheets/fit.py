"""Text for a box of fixed size: set smaller until it fits, else cut with an ellipsis."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from garage.sheets.fonts import BODY, drawable
from garage.sheets.kit import LONGEST

LEADING = 1.22
# How far a letter reaches over the line and under it, of its size: measured on DejaVu's É and g.
ASCENT, DESCENT = 0.95, 0.24


@dataclass(frozen=True)
class Fitted:
    """Lines of one size (points) that stay in the box they were fitted to."""

    face: str
    size: float
    lines: tuple[str, ...]

    @property
    def height(self) -> float:
        if not self.lines:
            return 0
        return self.size * (ASCENT + DESCENT + LEADING * (len(self.lines) - 1))

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        canvas.setFont(self.face, self.size)
        for number, words in enumerate(self.lines):
            canvas.drawString(x, top - self.size * (ASCENT + LEADING * number), words)


def fitted(text: str, width: float, height: float, sizes: Sequence[float], face: str = BODY) -> Fitted:
    """The text in the largest of `sizes` (falling) that the box, in points, holds."""
    words = drawable(str(text)[:LONGEST]).split()
    smallest = Fitted(face, sizes[-1], ())
    for size in sizes:
        room = int((height / size - ASCENT - DESCENT) // LEADING) + 1
        whole = not any(stringWidth(word, face, size) > width for word in words)
        lines = _lines(words, width, face, size)
        if len(lines) <= room and (whole or size == sizes[-1]):
            return Fitted(face, size, tuple(lines))
        smallest = Fitted(face, size, tuple(_cut(lines, max(room, 1), width, face, size)))
    return smallest


def _lines(words: list[str], width: float, face: str, size: float) -> list[str]:
    """Words in lines; one that is longer than a line is broken where the line ends."""
    lines: list[str] = []
    for word in words:
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and stringWidth(joined, face, size) <= width:
            lines[-1] = joined
            continue
        piece = ""
        for char in word:
            if piece and stringWidth(piece + char, face, size) > width:
                lines.append(piece)
                piece = ""
            piece += char
        lines.append(piece)
    return lines


def _cut(lines: list[str], room: int, width: float, face: str, size: float) -> list[str]:
    kept = lines[:room]
    if len(lines) > room:
        last = kept[-1]
        while last and stringWidth(f"{last}…", face, size) > width:
            last = last[:-1]
        kept[-1] = f"{last.rstrip()}…"
    return kept

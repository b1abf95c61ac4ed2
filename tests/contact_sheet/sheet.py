"""Many pictures on one: a column a page, cut after three screens, with its name over it."""

from collections.abc import Sequence
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

COLUMN, TALL, GAP, A_ROW = 260, 1700, 16, 10
FACE = Path(__file__).parents[2] / "garage/sheets/faces/DejaVuSans.ttf"


def contact_sheet(pictures: Sequence[tuple[str, Path]], to: Path) -> None:
    """`pictures` by name, in their order."""
    face, rows = ImageFont.truetype(str(FACE), 13), -(-len(pictures) // A_ROW)
    across = min(A_ROW, len(pictures))
    whole = Image.new("RGB", (across * (COLUMN + GAP) + GAP, rows * (TALL + 40) + GAP), "#555")
    pen = ImageDraw.Draw(whole)
    for number, (name, file) in enumerate(pictures):
        x, y = GAP + number % A_ROW * (COLUMN + GAP), GAP + number // A_ROW * (TALL + 40)
        with Image.open(file) as picture:
            small = picture.resize((COLUMN, max(1, picture.height * COLUMN // picture.width)))
        pen.text((x, y), name[:34], fill="#fff", font=face)
        whole.paste(small.crop((0, 0, COLUMN, min(TALL, small.height))), (x, y + 20))
    whole.save(to)

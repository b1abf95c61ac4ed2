"""Pages as a printer would draw them."""

import re
import shutil
import subprocess
from itertools import combinations
from pathlib import Path
from typing import NamedTuple

from PIL import Image


def pages(data: bytes, folder: Path, dpi: int) -> list[Image.Image]:
    """Every page in grey, drawn by poppler at so many dots an inch."""
    assert shutil.which("pdftoppm"), "poppler-utils is not installed"
    (folder / "sheet.pdf").write_bytes(data)
    subprocess.run(  # noqa: S603 (our own file)
        ["pdftoppm", "-r", str(dpi), "-gray", "sheet.pdf", f"page{dpi}"],  # noqa: S607 (found above)
        cwd=folder,
        check=True,
    )
    return [Image.open(file) for file in sorted(folder.glob(f"page{dpi}*.pgm"))]


class Word(NamedTuple):
    """Where a word stands, in points from the left and the top of its page."""

    left: float
    top: float
    right: float
    bottom: float
    text: str

    def meets(self, other: "Word") -> bool:
        """Whether their letters lie over each other: boxes hold the room above and below the letters too."""
        lower, upper = min(self.bottom, other.bottom), max(self.top, other.top)
        wide = min(self.right, other.right) - max(self.left, other.left)
        return wide > 0.5 and lower - upper > 0.35 * min(self.bottom - self.top, other.bottom - other.top)


WORD = re.compile(r'<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)</word>')


def placed_words(data: bytes, folder: Path) -> list[list[Word]]:
    """The words of every page with where they stand, as poppler reads them."""
    assert shutil.which("pdftotext"), "poppler-utils is not installed"
    (folder / "words.pdf").write_bytes(data)
    command = ["pdftotext", "-bbox", "words.pdf", "words.html"]
    subprocess.run(command, cwd=folder, check=True)  # noqa: S603 (our own file, found above)
    every = (folder / "words.html").read_text().split("<page ")[1:]
    return [[Word(*map(float, found[:4]), found[4]) for found in WORD.findall(page)] for page in every]


def over_each_other(page: list[Word]) -> list[tuple[str, str]]:
    """Words of a page that lie over each other."""
    return [(one.text, other.text) for one, other in combinations(page, 2) if one.meets(other)]

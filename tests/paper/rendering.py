"""Pages as a printer would draw them."""

import shutil
import subprocess
from pathlib import Path

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

"""Where the project's files are."""

from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
APPS = ("garage", "parts", "builds")


def files(pattern: str, *roots: str) -> Iterator[Path]:
    """Files of ours, migrations left out."""
    for root in roots or (*APPS, "templates", "static", "tests"):
        for file in sorted((ROOT / root).rglob(pattern)):
            if "migrations" not in file.parts and "__pycache__" not in file.parts:
                yield file


def shown(file: Path) -> str:
    return str(file.relative_to(ROOT))

"""Where the project's files are, what they say, and which of them break a rule."""

import ast
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

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


@cache
def text_of(file: Path) -> str:
    return file.read_text()


@cache
def tree_of(file: Path) -> ast.Module:
    return ast.parse(text_of(file))


def breaking(given: Iterable[Path], rule: Callable[[Path], Any]) -> dict[str, Any]:
    """Of these files those that break a rule, each with what it is told; a rule tells nothing of a file that keeps it.

    Raises AssertionError where no file is given: a rule that reads nothing holds of everything.
    """
    read = list(given)
    assert read, "There is no such file."
    return {shown(file): told for file in read if (told := rule(file))}

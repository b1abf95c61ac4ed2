"""A folder of our own for work that is done or undone as a whole."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from pathlib import Path

PREFIX = ".unfinished-"
YOUNG = timedelta(days=1)


@contextmanager
def scratch(parent: Path, *, at: datetime) -> Iterator[Path]:
    """A folder in `parent` that only we read, gone afterwards; what a killed process left goes after a day."""
    parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    for left in parent.glob(f"{PREFIX}*"):
        if left.stat().st_mtime < (at - YOUNG).timestamp():
            shutil.rmtree(left, ignore_errors=True)
    folder = Path(tempfile.mkdtemp(prefix=PREFIX, dir=parent))
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def flush(path: Path) -> None:
    """A file's contents, or the names in a folder, onto the disk, so that they outlive a power cut."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)

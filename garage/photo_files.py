"""The files of photos: written whole or not at all, in a folder that no address leads into."""

import fcntl
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from uuid import UUID

from django.conf import settings

from garage.engine.picture_sizes import SIZES
from garage.scratch import flush


def folder() -> Path:
    return Path(settings.PHOTO_DIR)


def path(name: UUID, size: str) -> Path:
    """Of one size; a folder for each first byte of the name keeps the folders short."""
    return folder() / name.hex[:2] / f"{name.hex}-{size}.jpg"


def free_bytes() -> int:
    folder().mkdir(parents=True, exist_ok=True)
    return shutil.disk_usage(folder()).free


@contextmanager
def alone() -> Iterator[None]:
    """One after the other, in all threads and processes of this machine; whoever ends, however, lets the next go on."""
    folder().mkdir(parents=True, exist_ok=True)
    with (folder() / "one-at-a-time.lock").open("a") as turn:
        fcntl.flock(turn, fcntl.LOCK_EX)
        yield


def write(name: UUID, files: dict[str, bytes]) -> None:
    """All sizes or, after an error, none: each is flushed to the disk before it gets its name."""
    try:
        for size, data in files.items():
            put(path(name, size), data)
        flush(path(name, "small").parent)
    except BaseException:
        remove(name)
        raise


def put(target: Path, data: bytes) -> None:
    """One file, whole or not there; `flush` its folder after the last."""
    target.parent.mkdir(parents=True, exist_ok=True)
    draft = target.with_suffix(".draft")
    with draft.open("wb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())
    draft.replace(target)


def keep_aside(aside: Path) -> bool:
    """Every photo file there is, under a second name in the folder `aside`; whether there was any."""
    files = list(folder().glob("*/*.jpg"))
    for file in files:
        kept = aside / file.relative_to(folder())
        kept.parent.mkdir(parents=True, exist_ok=True)
        try:
            os.link(file, kept)
        except OSError:  # a file system without second names
            shutil.copy2(file, kept)
    return bool(files)


def remove(name: UUID) -> None:
    for size in SIZES:
        path(name, size).unlink(missing_ok=True)
        path(name, size).with_suffix(".draft").unlink(missing_ok=True)


def older_than(moment: float) -> Iterator[tuple[Path, UUID | None]]:
    """Files last written before `moment` (a timestamp), with the name of the photo each is of."""
    for file in sorted(folder().glob("*/*")):
        if file.is_file() and file.stat().st_mtime < moment:
            try:
                yield file, UUID(file.name[:32])
            except ValueError:
                yield file, None

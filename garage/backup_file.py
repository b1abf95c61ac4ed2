"""A zip of ours, with a manifest: written entry by entry, read back only after all of it is verified."""

import struct
import zipfile
import zlib
from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from hashlib import sha256
from typing import IO, BinaryIO, Generic, Self, TypeVar

from garage.engine.backup.manifest import (
    MANIFEST,
    MOST_BYTES,
    Contents,
    Manifest,
    NotWhole,
    photo_path,
    read_manifest,
    table_path,
)
from garage.engine.backup.values import MOST_LINE

CHUNK = 1024**2
MB = 1024**2
# Whatever zipfile and zlib raise at bytes that are not as they were written.
BROKEN = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    EOFError,
    NotImplementedError,
    RuntimeError,
    OSError,
    ValueError,
    OverflowError,
)


Told = TypeVar("Told", bound=Contents)


class BackupWriter:
    """Adds entries to a zip and says the SHA-256 of each."""

    def __init__(self, out: BinaryIO, at: datetime) -> None:
        self.zip = zipfile.ZipFile(out, "w")
        self.moment = at.timetuple()[:6]

    def add(self, name: str, pieces: Iterable[bytes], *, squeeze: bool = True) -> str:
        """`squeeze` compresses; pictures are compressed already."""
        info = zipfile.ZipInfo(name, self.moment)
        info.compress_type = zipfile.ZIP_DEFLATED if squeeze else zipfile.ZIP_STORED
        info.external_attr = 0o600 << 16
        digest = sha256()
        with self.zip.open(info, "w", force_zip64=True) as entry:
            for piece in pieces:
                digest.update(piece)
                entry.write(piece)
        return digest.hexdigest()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, *more: object) -> None:
        if kind:
            self.zip.fp = None  # nothing more is to be written, not even when it is collected
        self.zip.close()


class ZipReader(Generic[Told]):
    """A file that was found whole."""

    def __init__(self, archive: zipfile.ZipFile, manifest: Told) -> None:
        self.zip, self.manifest = archive, manifest

    def lines_of(self, path: str) -> Iterator[bytes]:
        with self.zip.open(path) as entry:
            while line := entry.readline(MOST_LINE + 1):
                yield line

    def photo(self, name: str) -> bytes:
        return self.zip.read(photo_path(name))


class BackupReader(ZipReader[Manifest]):
    """A backup that was found whole."""

    def lines(self, table: str) -> Iterator[bytes]:
        return self.lines_of(table_path(table))


def opened(file: BinaryIO, *, free: int) -> BackupReader:
    """The backup in `file`, every byte of it checked; NotWhole otherwise. `free`: bytes it may unpack to."""
    return BackupReader(*verified(file, read_manifest, free=free, called="backup"))


def verified(file: BinaryIO, read: Callable[[bytes], Told], *, free: int, called: str) -> tuple[zipfile.ZipFile, Told]:
    """The zip and its manifest, as `read` makes it of a text, every byte checked; NotWhole otherwise."""
    try:
        archive = zipfile.ZipFile(file)
        return archive, _verified(archive, read, free, called)
    except BROKEN as error:
        raise NotWhole(f"is no {called}, or is damaged or cut off") from error


def _verified(archive: zipfile.ZipFile, read: Callable[[bytes], Told], free: int, called: str) -> Told:
    names = [info.filename for info in archive.infolist()]
    if len(set(names)) != len(names):
        raise NotWhole("holds a name twice")
    if MANIFEST not in names or archive.getinfo(MANIFEST).file_size > MOST_BYTES:
        raise NotWhole(f"is no {called}: it has no {MANIFEST}")
    size = sum(info.file_size for info in archive.infolist())
    if size > free:
        raise NotWhole(f"unpacks to {size // MB} MB, and there is room for {free // MB} MB")
    manifest = read(archive.read(MANIFEST))
    wanted, counted = manifest.digests, manifest.lines
    for name in sorted({*names} ^ {*wanted, MANIFEST}):
        raise NotWhole(f"lacks {name}" if name in wanted else "holds something that its manifest does not name")
    for name, digest in wanted.items():
        with archive.open(name) as entry:
            held, lines = _read(entry)
        if held != digest:
            raise NotWhole(f"is damaged in {name}")
        if lines != counted.get(name, lines):
            raise NotWhole(f"has {lines} rows in {name}, not {counted[name]}")
    return manifest


def _read(entry: IO[bytes]) -> tuple[str, int]:
    """The digest of an entry and how many lines it has."""
    digest, lines = sha256(), 0
    while piece := entry.read(CHUNK):
        digest.update(piece)
        lines += piece.count(b"\n")
    return digest.hexdigest(), lines

"""The zip of a backup: written entry by entry, read back only after all of it is verified."""

import struct
import zipfile
import zlib
from collections.abc import Iterable, Iterator
from datetime import datetime
from hashlib import sha256
from typing import IO, BinaryIO, Self

from garage.engine.backup.manifest import (
    MANIFEST,
    MOST_BYTES,
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


class BackupReader:
    """A backup that was found whole."""

    def __init__(self, archive: zipfile.ZipFile, manifest: Manifest) -> None:
        self.zip, self.manifest = archive, manifest

    def lines(self, table: str) -> Iterator[bytes]:
        with self.zip.open(table_path(table)) as entry:
            while line := entry.readline(MOST_LINE + 1):
                yield line

    def photo(self, name: str) -> bytes:
        return self.zip.read(photo_path(name))


def opened(file: BinaryIO, *, free: int) -> BackupReader:
    """The backup in `file`, every byte of it checked; NotWhole otherwise. `free`: bytes it may unpack to."""
    try:
        return _verified(zipfile.ZipFile(file), free)
    except BROKEN as error:
        raise NotWhole("is no backup, or is damaged or cut off") from error


def _verified(archive: zipfile.ZipFile, free: int) -> BackupReader:
    names = [info.filename for info in archive.infolist()]
    if len(set(names)) != len(names):
        raise NotWhole("holds a name twice")
    if MANIFEST not in names or archive.getinfo(MANIFEST).file_size > MOST_BYTES:
        raise NotWhole(f"is no backup: it has no {MANIFEST}")
    size = sum(info.file_size for info in archive.infolist())
    if size > free:
        raise NotWhole(f"unpacks to {size // MB} MB, and there is room for {free // MB} MB")
    manifest = read_manifest(archive.read(MANIFEST))
    wanted = manifest.digests
    for name in sorted({*names} ^ {*wanted, MANIFEST}):
        raise NotWhole(f"lacks {name}" if name in wanted else "holds something that its manifest does not name")
    rows = {table_path(name): table.rows for name, table in manifest.tables.items()}
    for name, digest in wanted.items():
        with archive.open(name) as entry:
            held, lines = _read(entry)
        if held != digest:
            raise NotWhole(f"is damaged in {name}")
        if lines != rows.get(name, lines):
            raise NotWhole(f"has {lines} rows in {name}, not {rows[name]}")
    return BackupReader(archive, manifest)


def _read(entry: IO[bytes]) -> tuple[str, int]:
    """The digest of an entry and how many lines it has."""
    digest, lines = sha256(), 0
    while piece := entry.read(CHUNK):
        digest.update(piece)
        lines += piece.count(b"\n")
    return digest.hexdigest(), lines

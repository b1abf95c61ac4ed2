"""A backup put in the place of a garage: verified whole, built beside, proved, and only then swapped in.

Nothing is deleted. On SQLite the change is one rename: before it the old garage stands as it was, after
it the new one does. On PostgreSQL it is one transaction, in a database that has no rows yet.
"""

import errno
import shutil
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from uuid import UUID

from django.conf import settings
from django.db import DEFAULT_DB_ALIAS, DatabaseError, connections, transaction

from garage import photo_files, sqlite_place
from garage.actions.backup import Prove
from garage.actions.refill import refill, refuse_unknown
from garage.actions.refused import Refused
from garage.backup_file import BackupReader, opened
from garage.engine.backup.manifest import Manifest, NotWhole
from garage.facts.books import has_rows
from garage.scratch import flush, scratch
from garage.second_database import second_database

# Rows take more room in a database, with its indexes, than as lines.
ROOM = 3


@dataclass(frozen=True)
class Restored:
    """`aside`: where what was there is kept, if anything was."""

    manifest: Manifest
    aside: tuple[Path, ...]


def restore(file: Path, *, prove: Prove, replace: bool, at: datetime) -> Restored:
    """Raises Refused; then everything is as it was."""
    settings.DATA_DIR.mkdir(parents=True, exist_ok=True)
    _refuse_filled(replace)
    try:
        with file.open("rb") as source:
            backup = opened(source, free=shutil.disk_usage(settings.DATA_DIR).free // ROOM)
            refuse_unknown(backup.manifest)
            return Restored(backup.manifest, _put(backup, prove, at))
    except NotWhole as fault:
        raise Refused(f"Nothing was restored: {file} {fault}.") from fault
    except OSError as error:
        full = error.errno == errno.ENOSPC
        why = "the disk is full" if full else f"{error.filename or file}: {error.strerror}"
        raise Refused(f"Nothing was restored: {why}.") from error


def _refuse_filled(replace: bool) -> None:
    connection = connections[DEFAULT_DB_ALIAS]
    if replace and connection.vendor != "sqlite":
        raise Refused("--replace works on SQLite alone: make a new database, name it in DATABASE_URL, restore into it.")
    if replace:
        return
    more = "; --replace moves what is there aside" if connection.vendor == "sqlite" else ": restore into a new one"
    try:
        filled = has_rows(DEFAULT_DB_ALIAS)
    except DatabaseError as error:
        raise Refused(f"The database here cannot be read ({error}){more}.") from error
    if filled:
        raise Refused(f"The database here is not empty{more}.")


def _put(backup: BackupReader, prove: Prove, at: datetime) -> tuple[Path, ...]:
    added: list[Path] = []
    try:
        if connections[DEFAULT_DB_ALIAS].vendor == "sqlite":
            return _beside(backup, prove, added, at)
        with transaction.atomic():
            refill(DEFAULT_DB_ALIAS, backup, prove=prove)
            _add_photos(backup, added)
        return ()
    except BaseException:
        for file in added:
            file.unlink(missing_ok=True)
        raise


def _beside(backup: BackupReader, prove: Prove, added: list[Path], at: datetime) -> tuple[Path, ...]:
    """As one SQLite file, built in the same folder; says where what was there is kept."""
    live = Path(connections[DEFAULT_DB_ALIAS].settings_dict["NAME"]).resolve()
    connections[DEFAULT_DB_ALIAS].close()
    with scratch(live.parent, at=at) as folder:
        built = folder / live.name
        with second_database("built", built) as using:
            refill(using, backup, prove=prove)
        flush(built)
        mark = f"before-{at:%Y%m%dT%H%M%SZ}"
        pictures = photo_files.folder().with_name(f"{photo_files.folder().name}.{mark}")
        try:
            kept = photo_files.keep_aside(pictures)
            _add_photos(backup, added)
            old = sqlite_place.swap(built, live, live.with_name(f"{live.name}.{mark}"))
        except BaseException:
            shutil.rmtree(pictures, ignore_errors=True)
            raise
    return tuple(path for path, there in ((live.with_name(f"{live.name}.{mark}"), old), (pictures, kept)) if there)


def _add_photos(backup: BackupReader, added: list[Path]) -> None:
    """Beside the photos that are there: names are drawn at random, and a file never changes."""
    names: dict[UUID, dict[str, str]] = {}
    for path in backup.manifest.photos:
        name, _, size = Path(path).stem.partition("-")
        names.setdefault(UUID(name), {})[size] = path
    for name, paths in names.items():
        files = {photo_files.path(name, size): path for size, path in paths.items()}
        lacking = {file: path for file, path in files.items() if not _same(file, backup.manifest.photos[path])}
        for file, path in lacking.items():
            if not file.exists():
                added.append(file)
            photo_files.put(file, backup.photo(path))
        for folder in {file.parent for file in lacking}:
            flush(folder)


def _same(file: Path, digest: str) -> bool:
    return file.exists() and sha256(file.read_bytes()).hexdigest() == digest

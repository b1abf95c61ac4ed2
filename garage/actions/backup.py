"""A backup: one file with the rows, the photos and the settings of a garage, taken while people work."""

import errno
import os
import sqlite3
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from re import MULTILINE, findall

from django.conf import settings
from django.db import DatabaseError, IntegrityError, connections, models

from garage.actions.open_tables import write_photos
from garage.actions.refused import Refused
from garage.backup_file import BackupWriter
from garage.engine.backup.keeping import backup_name
from garage.engine.backup.left_out import LEFT_OUT
from garage.engine.backup.manifest import (
    MANIFEST,
    SETTINGS,
    LedgerProof,
    Manifest,
    TableEntry,
    manifest_text,
    table_path,
)
from garage.engine.backup.setting_lines import setting_lines
from garage.engine.backup.values import line_of
from garage.facts.books import Books, columns, rows
from garage.last_ids import last_id
from garage.models import Photo
from garage.scratch import flush, scratch
from garage.still import still
from garage.version import version

# Proves the ledger of a database, by its alias; handed in, since parts know the garage and not the other way.
Prove = Callable[[str], LedgerProof]


@dataclass(frozen=True)
class Backup:
    """`faults`: what was not in order already, each a sentence; `restore` will refuse such a file."""

    file: Path
    bytes: int
    manifest: Manifest
    faults: tuple[str, ...]

    @property
    def faults_words(self) -> str:
        return (
            f"{self.file} is written, but cannot be restored as it is: {'; '.join(self.faults)}."
            " Mend that (check_ledger --rebuild writes balances anew) and make another."
        )


def make(file: Path | None, *, prove: Prove, secrets: bool, at: datetime, daily: bool = False) -> Backup:
    """Write the backup to `file`, in that folder, or in BACKUP_DIR. Raises Refused; then nothing is left."""
    target = _target(file, backup_name(at, daily=daily))
    try:
        with still(at) as using, scratch(target.parent, at=at) as folder:
            draft = folder / "backup.zip"
            with draft.open("xb") as out:
                draft.chmod(0o600)
                with BackupWriter(out, at) as writer:
                    manifest, faults = _write(writer, using, prove, secrets, at)
                out.flush()
                os.fsync(out.fileno())
            draft.rename(target)
            flush(target.parent)
    except (OSError, sqlite3.Error, DatabaseError) as error:
        raise Refused(f"No backup was made: {why_not(error, target.parent)}.") from error
    return Backup(target, target.stat().st_size, manifest, faults)


def _target(file: Path | None, name: str) -> Path:
    target = file or settings.BACKUP_DIR / name
    if target.is_dir():
        target = target / name
    if target.exists():
        raise Refused(f"No backup was made: {target} is there already, and is left as it is.")
    return target


def _write(
    writer: BackupWriter, using: str, prove: Prove, secrets: bool, at: datetime
) -> tuple[Manifest, tuple[str, ...]]:
    books = Books(using)
    if "garage_garage" not in books.models:
        raise Refused("No backup was made: there is no garage in this database.")
    proof = prove(using)
    tables = {table: _table(writer, using, table, model) for table, model in books.models.items()}
    names = Photo.objects.using(using).order_by("pk").values_list("name", flat=True)
    photos, missing = write_photos(writer, names)
    manifest = Manifest(
        version=version(),
        made_at=at.isoformat(),
        database=connections[using].vendor,
        migrations=tuple(f"{app}.{name}" for app, name in books.migrations),
        tables=tables,
        photos=photos,
        missing_photos=missing,
        settings=writer.add(SETTINGS, [_settings(secrets).encode()]),
        moves=proof.moves,
        balances=proof.balances,
        left_out=LEFT_OUT,
    )
    writer.add(MANIFEST, [manifest_text(manifest)])
    return manifest, (*_broken_ties(using), *proof.faults)


def _table(writer: BackupWriter, using: str, table: str, model: type[models.Model]) -> TableEntry:
    kinds, count = columns(model), 0

    def lines() -> Iterator[bytes]:
        nonlocal count
        for record in rows(model, using):
            count += 1
            yield line_of(tuple(kinds.values()), record)

    digest = writer.add(table_path(table), lines())
    return TableEntry(kinds, count, last_id(model, using), digest)


def _settings(secrets: bool) -> str:
    names = findall(r"^([A-Z_]+)=", (settings.BASE_DIR / ".env.example").read_text(), MULTILINE)
    values = {"SECRET_KEY": settings.SECRET_KEY} | {name: os.environ[name] for name in names if os.environ.get(name)}
    return setting_lines(names, values, secrets=secrets)


def _broken_ties(using: str) -> tuple[str, ...]:
    try:
        connections[using].check_constraints()
    except IntegrityError as error:
        return (f"a row names another that is not there: {error}",)
    return ()


def why_not(error: Exception, folder: Path) -> str:
    """What the disk or the database has against it, in words."""
    full = getattr(error, "errno", None) == errno.ENOSPC or "disk is full" in str(error)
    if full:
        return f"the disk is full, under {settings.DATA_DIR} or under {folder}"
    if isinstance(error, OSError):
        return f"{error.filename or folder} cannot be read or written ({error.strerror})"
    return f"the database cannot be read ({error})"

"""All of one garage as open files in one zip: JSON, CSV and photos, without secrets and without other garages."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

from django.conf import settings
from django.db import DatabaseError

from garage.actions.backup import why_not
from garage.actions.open_tables import write_photos, write_table
from garage.actions.refused import Refused
from garage.backup_file import BackupWriter
from garage.engine.backup.manifest import MANIFEST
from garage.engine.open_files.contents import GUIDE, LEFT_OUT, withheld
from garage.engine.open_files.manifest import OpenManifest, open_manifest_text
from garage.facts.garage_rows import GARAGE, GarageBooks, open_columns
from garage.models import Garage
from garage.scratch import flush, scratch
from garage.still import still
from garage.version import version


def export_garage(garage: Garage, file: Path, *, guide: str, emails: bool, at: datetime) -> OpenManifest:
    """Write the zip to `file`, which is not there yet. Raises Refused; then nothing is left."""
    if file.exists():
        raise Refused(f"Nothing was written: {file} is there already, and is left as it is.")
    with drafted(file.parent, at) as draft:
        with draft.open("xb") as out:
            draft.chmod(0o600)
            manifest = write_garage(out, garage.pk, guide=guide, emails=emails, at=at)
            out.flush()
            os.fsync(out.fileno())
        draft.rename(file)
        flush(file.parent)
    return manifest


def exported(garage: Garage, *, guide: str, emails: bool, at: datetime) -> BinaryIO:
    """The zip as an open file that has no name any more: it is gone with whoever reads it. Raises Refused."""
    with drafted(settings.DATA_DIR, at) as draft:
        with draft.open("xb") as out:
            write_garage(out, garage.pk, guide=guide, emails=emails, at=at)
        return draft.open("rb")


@contextmanager
def drafted(parent: Path, at: datetime) -> Iterator[Path]:
    """Where a zip is written, gone afterwards if it was not moved; what goes wrong with the disk is Refused."""
    try:
        with scratch(parent, at=at) as folder:
            yield folder / "open.zip"
    except (OSError, sqlite3.Error, DatabaseError) as error:
        raise Refused(f"Nothing was written: {why_not(error, parent)}.") from error


def write_garage(out: BinaryIO, garage: int, *, guide: str, emails: bool, at: datetime) -> OpenManifest:
    """Row by row and picture by picture, however much there is."""
    with BackupWriter(out, at) as writer:
        with still(at) as using:
            books = GarageBooks(using)
            tables = {
                table: write_table(writer, open_columns(model, emails=emails), books.of(table, garage), at)
                for table, model in books.models.items()
            }
            (name,) = books.of(GARAGE, garage).values_list("name", flat=True)
            pictures = list(books.of("garage_photo", garage).order_by("pk").values_list("name", flat=True))
        photos, missing = write_photos(writer, pictures)
        manifest = OpenManifest(
            version=version(),
            made_at=at.isoformat(),
            garage=name,
            emails=emails,
            migrations=books.migrations,
            tables=tables,
            photos=photos,
            missing_photos=missing,
            guide=writer.add(GUIDE, [guide.encode()]),
            withheld={table: apart for table in tables if (apart := withheld(table, emails=emails))},
            left_out=LEFT_OUT,
        )
        writer.add(MANIFEST, [open_manifest_text(manifest)])
    return manifest

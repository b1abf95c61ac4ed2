"""A garage's open files brought into a server where other garages live: a new garage, its numbers given anew.

The file is verified whole, its rows built into a database beside, at the migrations that they had, brought up to
date and looked through; only then they are put in, in one transaction.
"""

import errno
import shutil
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from django.conf import settings
from django.db import DEFAULT_DB_ALIAS, DatabaseError, connections, transaction

from garage import photo_files
from garage.actions.backup import Prove
from garage.actions.open_rows import fill
from garage.actions.refill import refuse_unknown
from garage.actions.refused import Refused
from garage.actions.renumbered import Numbers, put_rows
from garage.actions.restore import ROOM
from garage.actions.seen_through import see_through
from garage.backup_file import ZipReader, verified
from garage.engine.backup.manifest import NotWhole
from garage.engine.open_files.manifest import OpenManifest, read_open_manifest
from garage.facts.garage_rows import GARAGE, GarageBooks
from garage.models import Garage
from garage.scratch import flush, scratch
from garage.second_database import second_database


@dataclass(frozen=True)
class Imported:
    """`lost_emails`: those that somebody has here already, and that nobody was given a second time."""

    garage: Garage
    manifest: OpenManifest
    lost_emails: tuple[str, ...]


def import_garage(file: Path, *, prove: Prove, at: datetime) -> Imported:
    """Raises Refused; then everything is as it was."""
    try:
        with file.open("rb") as source:
            free = shutil.disk_usage(settings.DATA_DIR).free // ROOM
            reader = ZipReader(*verified(source, read_open_manifest, free=free, called="garage as open files"))
            refuse_unknown(reader.manifest)
            return _brought_in(reader, prove, at)
    except NotWhole as fault:
        raise Refused(f"Nothing was imported: {file} {fault}.") from fault
    except OSError as error:
        full = error.errno == errno.ENOSPC
        why = "the disk is full" if full else f"{error.filename or file}: {error.strerror}"
        raise Refused(f"Nothing was imported: {why}.") from error


def _brought_in(reader: ZipReader[OpenManifest], prove: Prove, at: datetime) -> Imported:
    with scratch(settings.DATA_DIR, at=at) as folder, second_database("built", folder / "garage.sqlite3") as built:
        fill(built, reader)
        see_through(built, reader)
        for fault in prove(built).faults:
            raise NotWhole(f"has a ledger that does not add up: {fault}")
        books, added = GarageBooks(built), []
        numbers = Numbers(books)
        try:
            _put_photos(reader, numbers, added)
            with transaction.atomic():
                lost = put_rows(books, numbers)
            (garage,) = Garage.objects.filter(pk__in=numbers.given[GARAGE].values())
        except DatabaseError as error:
            _remove(added)
            here = connections[DEFAULT_DB_ALIAS].display_name
            raise NotWhole(f"holds what the {here} database here refuses: {str(error).splitlines()[0]}") from error
        except BaseException:
            _remove(added)
            raise
    return Imported(garage, reader.manifest, lost)


def _put_photos(reader: ZipReader[OpenManifest], numbers: Numbers, added: list[Path]) -> None:
    """Under new names, before the rows that name them."""
    for name in reader.manifest.photos:
        old, _, size = Path(name).stem.partition("-")
        target = photo_files.path(numbers.key(old), size)
        added.append(target)
        photo_files.put(target, reader.photo(name))
    for folder in {target.parent for target in added}:
        flush(folder)


def _remove(added: list[Path]) -> None:
    for file in added:
        file.unlink(missing_ok=True)

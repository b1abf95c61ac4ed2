"""Tables and photos written as open files, for whoever takes a garage or his own data along."""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import models

from garage import photo_files
from garage.backup_file import CHUNK, BackupWriter
from garage.engine.backup.manifest import photo_path
from garage.engine.open_files.contents import ENDED
from garage.engine.open_files.manifest import OpenTable, csv_path, json_path
from garage.engine.open_files.rows import csv_pieces, json_pieces
from garage.engine.picture_sizes import SIZES
from garage.facts.books import AT_ONCE


def write_table(writer: BackupWriter, kinds: dict[str, str], rows: models.QuerySet[Any], at: datetime) -> OpenTable:
    """The rows as JSON and as CSV, `kinds` being the columns that are taken along."""
    table = rows.model._meta.db_table
    names = {field.column: field.attname for field in rows.model._meta.concrete_fields}
    ended = list(kinds).index(ENDED[table]) if table in ENDED else None
    cells = rows.order_by("pk").values_list(*(names[column] for column in kinds))
    count = 0

    def told() -> Iterator[list[Any]]:
        nonlocal count
        count = 0
        for cell in cells.iterator(chunk_size=AT_ONCE):
            count += 1
            row = list(cell)
            if ended is not None and row[ended] is None:
                row[ended] = at
            yield row

    as_json = writer.add(json_path(table), json_pieces(kinds, told()))
    return OpenTable(kinds, count, as_json, writer.add(csv_path(table), csv_pieces(kinds, told())))


def write_photos(writer: BackupWriter, names: Iterable[UUID]) -> tuple[dict[str, str], tuple[str, ...]]:
    """Digests by name, and names of those whose file is gone; a photo's files are written before its row."""
    digests, missing = {}, []
    for photo in names:
        for size in SIZES:
            file = photo_files.path(photo, size)
            name = file.relative_to(photo_files.folder()).as_posix()
            try:
                with file.open("rb") as picture:
                    pieces = iter(lambda picture=picture: picture.read(CHUNK), b"")
                    digests[name] = writer.add(photo_path(name), pieces, squeeze=False)
            except FileNotFoundError:
                missing.append(name)
    return digests, tuple(missing)

"""The rows of open files put into a new database of their own, at the migrations that they were written at."""

import secrets
from collections.abc import Iterator
from typing import Any

from django.contrib.auth.hashers import make_password
from django.core.management import call_command
from django.db import DatabaseError, connections, models, transaction

from garage.actions.refill import load, migrate_to
from garage.backup_file import ZipReader
from garage.engine.backup.manifest import NotWhole
from garage.engine.open_files.contents import withheld
from garage.engine.open_files.manifest import OpenManifest, json_path
from garage.engine.open_files.rows import CLOSES, OPENS, row_of_json
from garage.facts.books import columns
from garage.facts.garage_rows import GarageBooks

Reader = ZipReader[OpenManifest]

# What a column that was left out holds from now on: nothing, or what nobody can have.
INSTEAD = {
    "password": lambda: make_password(None),
    "digest": lambda: secrets.token_hex(32),
    "tail": lambda: "gone",
    "phrase": lambda: "",
}


def fill(using: str, reader: Reader) -> None:
    """NotWhole when anything is not as the manifest says, or is nothing that a database takes."""
    try:
        migrate_to(using, reader.manifest.migrations)
        with transaction.atomic(using):
            _fill(using, reader)
        call_command("migrate", database=using, verbosity=0, interactive=False)
    except DatabaseError as error:
        raise NotWhole(f"holds what is no garage of ours: {str(error).splitlines()[0].rstrip('.')}") from error


def _fill(using: str, reader: Reader) -> None:
    books, tables = GarageBooks(using), reader.manifest.tables
    for table in sorted({*books.models} ^ {*tables}):
        raise NotWhole(f"{'has a' if table in tables else 'lacks the'} table {table}")
    for table, model in books.models.items():
        load(using, model, _whole_rows(reader, model))
        count = model._base_manager.using(using).count()
        if count != tables[table].rows:
            raise NotWhole(f"left {count} rows in {table}, not {tables[table].rows}")
    connections[using].check_constraints()


def _whole_rows(reader: Reader, model: type[models.Model]) -> Iterator[list[Any]]:
    """Each with all columns, in the order of the model's."""
    table, wanted = model._meta.db_table, columns(model)
    told = reader.manifest.tables[table].columns
    apart = withheld(table, emails=reader.manifest.emails)
    if {name: kind for name, kind in wanted.items() if name not in apart} != told:
        raise NotWhole(f"has other columns in {table} than its migrations make")
    places = {name: place for place, name in enumerate(told)}
    lines = reader.lines_of(json_path(table))
    if next(lines, b"") != OPENS:
        raise NotWhole(f"has rows in {table} that cannot be read")
    for line in lines:
        if line == CLOSES:
            break
        row = _row(table, told, line)
        yield [row[places[name]] if name in places else INSTEAD.get(name, _nothing)() for name in wanted]


def _row(table: str, told: dict[str, str], line: bytes) -> list[Any]:
    try:
        return row_of_json(told, line)
    except (ValueError, TypeError, ArithmeticError, RecursionError) as error:
        raise NotWhole(f"has a row in {table} that cannot be read") from error


def _nothing() -> None:
    return None

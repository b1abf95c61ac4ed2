"""The rows of a backup put into a database that has none, and what is there proved equal to it."""

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any

from django.core.management import call_command
from django.db import DatabaseError, connections, models, transaction
from django.db.migrations.exceptions import IrreversibleError
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.graph import MigrationGraph
from django.db.migrations.loader import MigrationLoader

from garage.actions.backup import Prove
from garage.backup_file import BackupReader
from garage.engine.backup.manifest import Contents, Manifest, NotWhole
from garage.engine.backup.values import row_of
from garage.facts.books import AT_ONCE, Books, columns
from garage.last_ids import go_on_from
from garage.version import version

Node = tuple[str, str]


def refuse_unknown(manifest: Contents) -> None:
    """NotWhole when this version does not know a migration that the backup has."""
    known = MigrationLoader(None).graph.nodes
    for app, name in _nodes(manifest.migrations):
        if (app, name) not in known:
            raise NotWhole(
                f"was made by a newer version of Witness Mark ({manifest.version}, this is {version()}),"
                f" whose {app}.{name} is not known here"
            )


def refill(using: str, backup: BackupReader, *, prove: Prove) -> None:
    """Bring the database to the backup's migrations, fill it, bring it up to date and prove it.

    NotWhole when anything is not as the manifest says.
    """
    manifest = backup.manifest
    try:
        migrate_to(using, manifest.migrations)
        with transaction.atomic(using):
            _fill(using, backup)
        call_command("migrate", database=using, verbosity=0, interactive=False)
        _number_on(using, manifest)
        _prove(using, manifest, prove)
    except DatabaseError as error:
        said = str(error).splitlines()[0].rstrip(".")
        raise NotWhole(f"holds what the {connections[using].display_name} database here refuses: {said}") from error


def _nodes(migrations: Iterable[str]) -> list[Node]:
    return [(app, migration) for app, _, migration in (name.partition(".") for name in migrations)]


def migrate_to(using: str, migrations: Iterable[str]) -> None:
    """The tables as they were at `migrations`, each as `app.name`; NotWhole where they cannot be made so again."""
    executor = MigrationExecutor(connections[using])
    try:
        executor.migrate(_ends(executor.loader.graph, set(_nodes(migrations))))
    except IrreversibleError as error:
        raise NotWhole("is older than this database's tables: restore it into a new database") from error


def _ends(graph: MigrationGraph, nodes: set[Node]) -> list[Node]:
    """The last of each app."""
    return [
        node
        for node in sorted(nodes)
        if not any(child.key[0] == node[0] and child.key in nodes for child in graph.node_map[node].children)
    ]


def _fill(using: str, backup: BackupReader) -> None:
    books, tables = Books(using), backup.manifest.tables
    for table in sorted({*books.models} ^ {*tables}):
        raise NotWhole(f"{'has a' if table in tables else 'lacks the'} table {table}")
    keys_checked_last(using)
    for table, model in books.models.items():
        if columns(model) != tables[table].columns:
            raise NotWhole(f"has other columns in {table} than its migrations make")
        load(using, model, _values(backup, table))
        count = model._base_manager.using(using).count()
        if count != tables[table].rows:
            raise NotWhole(f"left {count} rows in {table}, not {tables[table].rows}")
    # Before the tables change: keys are checked when the rows that they name are all there.
    connections[using].check_constraints()


def keys_checked_last(using: str) -> None:
    """For the rest of the transaction: a row may come before the one that it names.

    Where a column that names a row is added, PostgreSQL is told to check it at once until the transaction's end; a
    restore is one transaction, and its tables were made in it.
    """
    if connections[using].vendor == "postgresql":
        with connections[using].cursor() as cursor:
            cursor.execute("SET CONSTRAINTS ALL DEFERRED")


def _values(backup: BackupReader, table: str) -> Iterator[list[Any]]:
    kinds = tuple(backup.manifest.tables[table].columns.values())
    for line in backup.lines(table):
        try:
            yield row_of(kinds, line)
        except (ValueError, TypeError, ArithmeticError) as error:
            raise NotWhole(f"has a row in {table} that cannot be read") from error


def load(using: str, model: type[models.Model], rows: Iterable[list[Any]]) -> None:
    """Plain INSERTs: no moment is set anew, and the guards of the ledger have nothing against them."""
    connection, fields = connections[using], model._meta.local_concrete_fields
    # Where nothing may be missing, None is the word `null` of JSON.
    prepare = [field.get_db_prep_save if field.null else field.get_db_prep_value for field in fields]
    quote = connection.ops.quote_name
    names = ", ".join(quote(field.column) for field in fields)
    places = ", ".join(["%s"] * len(fields))
    insert = f"INSERT INTO {quote(model._meta.db_table)} ({names}) VALUES ({places})"  # noqa: S608 (names of ours)
    ready = ([put(cell, connection) for put, cell in zip(prepare, record, strict=True)] for record in rows)
    with connection.cursor() as cursor:
        while batch := list(islice(ready, AT_ONCE)):
            cursor.executemany(insert, batch)


def _number_on(using: str, manifest: Manifest) -> None:
    for table, model in Books(using).models.items():
        before = manifest.tables.get(table)
        go_on_from(model, using, before.last_id if before else 0)


def _prove(using: str, manifest: Manifest, prove: Prove) -> None:
    connection = connections[using]
    connection.check_constraints()
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA integrity_check")
            if cursor.fetchone() != ("ok",):
                raise NotWhole("came to a database that SQLite finds damaged: look at the disk")
    proof = prove(using)
    for fault in proof.faults:
        raise NotWhole(f"has a ledger that does not add up: {fault}")
    if (proof.moves, proof.balances) != (manifest.moves, manifest.balances):
        raise NotWhole("comes to other balances than it had when it was made")

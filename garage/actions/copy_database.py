"""Every row of this database copied into another one, and both compared, table by table."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.conf import settings
from django.core.exceptions import ImproperlyConfigured
from django.core.management import call_command
from django.db import DEFAULT_DB_ALIAS, DatabaseError, IntegrityError, connections, models, transaction
from django.db.migrations.executor import MigrationExecutor

from garage import env
from garage.actions.backup import Prove
from garage.actions.refill import load
from garage.actions.refused import Refused
from garage.engine.backup.left_out import WRITTEN_ANEW
from garage.engine.backup.manifest import LedgerProof
from garage.engine.backup.values import rows_digest
from garage.facts.books import Books, columns, has_rows, rows
from garage.last_ids import go_on_from, last_id
from garage.models import Garage
from garage.second_database import second_database
from garage.still import still

SAME_PLACE = ("ENGINE", "NAME", "HOST", "PORT")


@dataclass(frozen=True)
class ComparedTable:
    """What both databases have of one table: so many rows, and this SHA-256 of all of them."""

    name: str
    rows: int
    digest: str


@dataclass(frozen=True)
class Copied:
    """`engines` of what was read and of what was written to."""

    engines: tuple[str, str]
    tables: tuple[ComparedTable, ...]
    moves: int


def copy_database(address: str, *, prove: Prove, at: datetime) -> Copied:
    """Into the empty database at `address`, which is brought to the same migrations. Raises Refused; then it is empty.

    All of it in one transaction, sessions and links included; photos stay where they are.
    """
    with second_database("copy", config=_config(address)) as target:
        try:
            _make_ready(target)
            with still(at) as source, transaction.atomic(target):
                before = _writes()
                tables = tuple(_copy(source, target, model) for model in _books(source).models.values())
                connections[target].check_constraints()
                proof = _same_ledger(prove(source), prove(target))
                if _writes() != before:
                    raise Refused("Somebody wrote here meanwhile: stop the server, and copy again. Nothing was copied.")
                engines = connections[DEFAULT_DB_ALIAS].display_name, connections[target].display_name
        except (DatabaseError, OSError) as error:
            raise Refused(f"Nothing was copied: {str(error).splitlines()[0].rstrip('.')}.") from error
    return Copied(engines, tables, proof.moves)


def _config(address: str) -> dict[str, Any]:
    try:
        config = env.database(address, settings.DATA_DIR)
    except ImproperlyConfigured as error:
        raise Refused("The address of a database starts with sqlite:/// or postgres://.") from error
    here = connections[DEFAULT_DB_ALIAS].settings_dict
    if all(str(config.get(name, "")) == str(here.get(name, "")) for name in SAME_PLACE):
        raise Refused("That is the database which is in use here: name another one.")
    return config


def _books(using: str) -> Books:
    return Books(using, without=WRITTEN_ANEW)


def _make_ready(target: str) -> None:
    executor = MigrationExecutor(connections[DEFAULT_DB_ALIAS])
    if executor.migration_plan(executor.loader.graph.leaf_nodes()):
        raise Refused("The database here is not up to date: run `manage.py migrate` first.")
    if has_rows(target, without=WRITTEN_ANEW):
        raise Refused("That database holds rows already: make an empty one. Nothing was copied.")
    call_command("migrate", database=target, verbosity=0, interactive=False)
    if _books(target).migrations != _books(DEFAULT_DB_ALIAS).migrations:
        raise Refused("That database has other migrations than this one: make an empty one. Nothing was copied.")


def _copy(source: str, target: str, model: type[models.Model]) -> ComparedTable:
    """NUL in a text, say, is nothing that PostgreSQL takes: it is said of which table."""
    table = model._meta.db_table
    with _said_of(table):
        load(target, model, map(list, rows(model, source)))
    go_on_from(model, target, last_id(model, source))
    kinds = tuple(columns(model).values())
    was, there = (rows_digest(kinds, rows(model, using)) for using in (source, target))
    if was != there:
        raise Refused(f"{table} came out otherwise: {was[0]} rows and {there[0]}. Nothing was copied.")
    return ComparedTable(table, *there)


@contextmanager
def _said_of(table: str) -> Iterator[None]:
    try:
        yield
    except (DatabaseError, ValueError, OverflowError) as error:
        if isinstance(error, IntegrityError):
            raise
        raise Refused(
            f"Nothing was copied: {table} holds what that database does not take ({str(error).splitlines()[0]})."
        ) from error


def _same_ledger(was: LedgerProof, there: LedgerProof) -> LedgerProof:
    if was.faults or was != there:
        raise Refused(f"The ledger does not add up: {'; '.join(was.faults) or 'other balances'}. Nothing was copied.")
    return there


def _writes() -> list[tuple[int, int]]:
    return list(Garage.objects.order_by("pk").values_list("pk", "writes"))

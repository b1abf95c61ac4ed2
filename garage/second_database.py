"""A second connection, under a name of its own, for work beside the garage that is open."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.db import DEFAULT_DB_ALIAS, connections

# The file is thrown away, or flushed as a whole: nothing rests on its journal.
OPTIONS = {
    "transaction_mode": "IMMEDIATE",
    "timeout": 20,
    "init_command": "PRAGMA journal_mode=MEMORY; PRAGMA synchronous=OFF; PRAGMA recursive_triggers=ON;",
}


@contextmanager
def second_database(alias: str, file: Path | None = None, *, config: dict[str, Any] | None = None) -> Iterator[str]:
    """`alias`, as a connection to the same database, to the SQLite file that is named, or as `config` says."""
    config = {**connections[DEFAULT_DB_ALIAS].settings_dict, **(config or {})}
    if file is not None:
        config |= {"ENGINE": "django.db.backends.sqlite3", "NAME": str(file), "OPTIONS": OPTIONS}
    connections.settings[alias] = config
    try:
        yield alias
    finally:
        connections[alias].close()
        del connections[alias]
        del connections.settings[alias]

"""A still picture of the database, to be read while people work.

SQLite's own backup copies the file in one step, for the length of which writers wait and then go on;
PostgreSQL reads in one transaction that sees one moment. What is read then holds nobody up.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import datetime

from django.conf import settings
from django.db import DEFAULT_DB_ALIAS, connections, transaction

from garage.scratch import scratch
from garage.second_database import second_database


@contextmanager
def still(at: datetime) -> Iterator[str]:
    """The alias of a database that stands still while it is read."""
    live = connections[DEFAULT_DB_ALIAS]
    if live.vendor == "sqlite":
        with scratch(settings.DATA_DIR, at=at) as folder:
            file = folder / "garage.sqlite3"
            live.ensure_connection()
            with closing(sqlite3.connect(file)) as copy:
                live.connection.backup(copy)
            with second_database("still", file) as using:
                yield using
        return
    with second_database("still") as using, transaction.atomic(using):
        with connections[using].cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY")
        yield using

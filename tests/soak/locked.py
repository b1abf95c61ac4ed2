"""The database locked by somebody else for a while, as by a backup tool or a hand at its prompt."""

import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager

from tests.soak.home import Home


@contextmanager
def locked(home: Home) -> Iterator[None]:
    """SQLite: nobody writes. PostgreSQL: nobody writes in any garage, as each is held."""
    if home.database:
        import psycopg

        with psycopg.connect(home.database) as other:
            other.execute("SELECT id FROM garage_garage FOR UPDATE")
            yield
            other.rollback()
    else:
        with closing(sqlite3.connect(home.folder / "garage.sqlite3", timeout=60, isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            yield
            other.execute("ROLLBACK")


def hold(home: Home, seconds: float) -> None:
    with locked(home):
        time.sleep(seconds)

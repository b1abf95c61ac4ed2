"""One SQLite file put in the place of another while nobody writes to it."""

import os
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

from garage.actions.refused import Refused
from garage.scratch import flush

SIDES = ("-journal", "-wal", "-shm")
PATIENCE = 5.0
BUSY = "Nothing was restored: somebody has the garage open. Stop the server, then restore again."


def swap(new: Path, live: Path, aside: Path) -> bool:
    """Rename `new` to `live` at one instant; what was there is kept as `aside`. Whether anything was.

    With everybody locked out, so that no journal is left that SQLite would play back into the wrong file.
    Whoever still has the old file open cannot write to it afterwards: in WAL mode he is refused here, and
    with a rollback journal SQLite refuses him ("readonly database", since its file has moved).
    """
    if not live.exists() or not live.stat().st_size:
        _take_place(new, live)
        return False
    with closing(sqlite3.connect(live, timeout=PATIENCE, isolation_level=None)) as old:
        try:
            (journal,) = old.execute("PRAGMA journal_mode=DELETE").fetchone()
            if journal == "wal":
                raise Refused(BUSY)
            old.execute("BEGIN EXCLUSIVE")
        except sqlite3.DatabaseError as error:
            if error.sqlite_errorcode & 0xFF in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
                raise Refused(BUSY) from error
            # Damaged: there is nobody to lock out of it.
        _keep(live, aside)
        _take_place(new, live)
    return True


def _keep(live: Path, aside: Path) -> None:
    """A second name for the old file, so that there is no instant without a garage; and its journals with it."""
    try:
        os.link(live, aside)
    except OSError:  # a file system without second names
        shutil.copy2(live, aside)
    for side in SIDES:
        journal = live.with_name(live.name + side)
        if journal.exists() and journal.stat().st_size:
            journal.rename(aside.with_name(aside.name + side))


def _take_place(new: Path, live: Path) -> None:
    new.replace(live)
    flush(live.parent)

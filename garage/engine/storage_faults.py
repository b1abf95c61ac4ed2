"""What keeps a garage from being written down, told from the error of the disk or the database."""

import errno
from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True)
class StorageFault:
    """`status` is of HTTP: 507 where nothing can be stored, 503 where it may go in a moment."""

    name: str
    status: int
    title: str
    sentence: str


FULL = StorageFault(
    "disk full",
    507,
    "The disk is full",
    "The disk that holds the garage’s data is full, and nothing of this was saved. Make room on the machine that"
    " serves the garage, then send it again.",
)
READ_ONLY = StorageFault(
    "read only",
    507,
    "The disk cannot be written to",
    "The garage’s data can be read but not written, and nothing of this was saved. Whoever runs the server"
    " looks at the disk, and at who owns the database’s file; then send it again.",
)
BUSY = StorageFault(
    "busy",
    503,
    "The garage is busy",
    "Somebody else’s save is taking long, and nothing of this was saved. Wait a moment, then send it again.",
)

BY_NUMBER = {errno.ENOSPC: FULL, errno.EDQUOT: FULL, errno.EROFS: READ_ONLY}
# What PostgreSQL calls them (appendix A of its manual): disk_full, read_only_sql_transaction, lock_not_available.
BY_CODE = {"53100": FULL, "25006": READ_ONLY, "55P03": BUSY}
# What SQLite says of SQLITE_FULL, SQLITE_READONLY and SQLITE_BUSY (sqlite3ErrStr in its source).
BY_WORDS = {"disk is full": FULL, "readonly database": READ_ONLY, "database is locked": BUSY}


def storage_fault(error: BaseException | None) -> StorageFault | None:
    """The first that is known among an error and what led to it."""
    for one in _chain(error):
        number = one.errno if isinstance(one, OSError) else None
        fault = BY_NUMBER.get(number or 0) or BY_CODE.get(str(getattr(one, "sqlstate", "")))
        fault = fault or next((fault for words, fault in BY_WORDS.items() if words in str(one)), None)
        if fault:
            return fault
    return None


def _chain(error: BaseException | None) -> Iterator[BaseException]:
    seen: set[int] = set()
    while error is not None and id(error) not in seen:
        seen.add(id(error))
        yield error
        error = error.__cause__ or error.__context__

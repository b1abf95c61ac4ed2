"""What the disk and the database say when nothing can be written, and what is made of it."""

import errno
import sqlite3

import pytest
from django.db.utils import OperationalError

from garage.engine.storage_faults import BUSY, FULL, READ_ONLY, storage_fault


class FromPostgres(Exception):
    def __init__(self, code):
        super().__init__("could not extend file")
        self.sqlstate = code


@pytest.mark.parametrize(
    ("error", "fault"),
    [
        (OSError(errno.ENOSPC, "No space left on device"), FULL),
        (OSError(errno.EDQUOT, "Disk quota exceeded"), FULL),
        (OSError(errno.EROFS, "Read-only file system"), READ_ONLY),
        (OSError(errno.ENOENT, "No such file"), None),
        (FromPostgres("53100"), FULL),
        (FromPostgres("25006"), READ_ONLY),
        (FromPostgres("55P03"), BUSY),
        (FromPostgres("23505"), None),
        (ValueError("no"), None),
        (None, None),
    ],
)
def test_what_is_known_of_each(error, fault):
    assert storage_fault(error) is fault


def test_what_led_to_it_counts():
    wrapped = OperationalError("something else")
    wrapped.__cause__ = FromPostgres("53100")
    assert storage_fault(wrapped) is FULL
    later = KeyError("messages")
    later.__context__ = wrapped
    assert storage_fault(later) is FULL


def test_errors_that_lead_to_each_other_come_to_an_end():
    one, other = ValueError(), KeyError()
    one.__context__, other.__context__ = other, one
    assert storage_fault(one) is None


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "a.sqlite3"
    with sqlite3.connect(path) as made:
        made.execute("CREATE TABLE t (x)")
    return path


def raised(file, *statements, **how):
    connection = sqlite3.connect(file, timeout=0, **how)
    try:
        with pytest.raises(sqlite3.Error) as error:
            for statement in statements:
                connection.execute(statement)
    finally:
        connection.close()
    return error.value


def test_sqlite_itself_says_that_it_is_full(file):
    error = raised(file, "PRAGMA max_page_count=2", "INSERT INTO t VALUES (zeroblob(100000))")
    assert storage_fault(error) is FULL


def test_sqlite_itself_says_that_it_may_not_write(file):
    error = raised(f"file:{file}?mode=ro", "INSERT INTO t VALUES (1)", uri=True)
    assert storage_fault(error) is READ_ONLY


def test_sqlite_itself_says_that_another_writes(file):
    with sqlite3.connect(file) as other:
        other.execute("BEGIN IMMEDIATE")
        assert storage_fault(raised(file, "BEGIN IMMEDIATE")) is BUSY

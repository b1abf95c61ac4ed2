"""The health page: open, plain, and without secrets."""

import pytest
from django.conf import settings
from django.db import DatabaseError, connection

from garage.env import journal_mode


def test_it_says_how_the_database_keeps_its_promises(client, db):
    answer = client.get("/health/")
    found = answer.json()
    assert (answer.status_code, found["database"]) == (200, "ok")
    assert found["free_disk_mb"] > 0
    assert ("journal" in found) == (connection.vendor == "sqlite")
    if connection.vendor == "sqlite":
        assert found["engine"].startswith("SQLite 3.")
        assert "journal" in found["journal_because"] or "reset race" in found["journal_because"]
    assert "no-store" in answer["Cache-Control"]


def test_it_holds_no_secret(client, db):
    shown = client.get("/health/").content.decode()
    for secret in (
        settings.SECRET_KEY,
        str(settings.DATA_DIR),
        settings.DATABASES["default"]["NAME"],
    ):
        assert str(secret) not in shown


def test_a_database_that_does_not_answer_is_said_so(client, db, monkeypatch):
    def broken(*args, **kwargs):
        raise DatabaseError("no such host 10.0.0.7")

    with monkeypatch.context() as patch:
        patch.setattr("garage.pages.health.connection.cursor", broken)
        answer = client.get("/health/")
    assert (answer.status_code, answer.json()["database"]) == (503, "not reachable")
    assert "10.0.0.7" not in answer.content.decode()


def test_it_is_read_only(client, db):
    assert client.post("/health/").status_code == 405


# The reset race of the write-ahead log: repaired in SQLite 3.51.3, with backports 3.50.7 and
# 3.44.6 (https://sqlite.org/wal.html#walresetbug).
@pytest.mark.parametrize(
    ("version", "mode"),
    [
        ((3, 40, 1), "TRUNCATE"),
        ((3, 44, 5), "TRUNCATE"),
        ((3, 44, 6), "WAL"),
        ((3, 45, 0), "TRUNCATE"),
        ((3, 50, 6), "TRUNCATE"),
        ((3, 50, 7), "WAL"),
        ((3, 51, 2), "TRUNCATE"),
        ((3, 51, 3), "WAL"),
        ((3, 53, 4), "WAL"),
        ((4, 0, 0), "WAL"),
    ],
)
def test_the_write_ahead_log_is_used_only_where_it_loses_nothing(version, mode):
    assert journal_mode(version) == mode

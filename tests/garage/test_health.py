"""Health: facts for whoever watches, and nothing that helps whoever should not."""

import json

import pytest
from django.db import connection

from garage.env import journal_mode


def test_it_is_open_and_says_how_the_database_stands(client, db, settings):
    answer = client.get("/health/")
    assert answer.status_code == 200
    facts = json.loads(answer.content)
    assert facts["database"] == "ok"
    assert facts["free_disk_mb"] > 0
    assert ("journal" in facts) == (connection.vendor == "sqlite")
    for secret in (settings.SECRET_KEY, str(settings.DATA_DIR), "postgres://"):
        assert secret not in answer.content.decode()


@pytest.mark.parametrize(
    "version, mode",
    [
        ((3, 40, 1), "TRUNCATE"),
        ((3, 44, 5), "TRUNCATE"),
        ((3, 44, 6), "WAL"),
        ((3, 50, 6), "TRUNCATE"),
        ((3, 50, 7), "WAL"),
        ((3, 51, 2), "TRUNCATE"),
        ((3, 51, 3), "WAL"),
        ((4, 0, 0), "WAL"),
    ],
)
def test_the_write_ahead_log_only_where_it_loses_nothing(version, mode):
    assert journal_mode(version) == mode

"""How the database keeps its promises, and how much room is left."""

import shutil
import sqlite3
from typing import Any

from django.conf import settings
from django.db import DatabaseError, connection

from garage.env import journal_mode
from garage.facts.backups import kept_backups


def sqlite_words() -> tuple[str, str]:
    """The journal chosen for this machine's SQLite library, and why."""
    mode = journal_mode(sqlite3.sqlite_version_info[:3])
    why = (
        "this SQLite library is free of the write-ahead log's reset race"
        if mode == "WAL"
        else "rollback journal, since this SQLite library's write-ahead log can lose pages"
    )
    return mode, why


def health() -> dict[str, Any]:
    """Facts without secrets: no paths, no hosts, no names."""
    facts: dict[str, Any] = {"database": "ok", "engine": connection.vendor}
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT COUNT(*) FROM django_migrations")
            if connection.vendor == "sqlite":
                facts["engine"] = f"SQLite {sqlite3.sqlite_version}"
                cursor.execute("PRAGMA journal_mode")
                facts["journal"] = cursor.fetchone()[0]
                facts["journal_because"] = sqlite_words()[1]
    except DatabaseError:
        facts["database"] = "not reachable"
    kept = kept_backups()
    facts["last_backup"] = kept[0].at.isoformat() if kept else None
    facts["free_disk_mb"] = shutil.disk_usage(settings.DATA_DIR).free // 1_000_000
    return facts

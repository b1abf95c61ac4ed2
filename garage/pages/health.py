"""How the database keeps its promises, and how much room is left."""

import os
import shutil
import sqlite3
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import DatabaseError, connection

from garage.env import journal_mode
from garage.facts.backups import kept_backups
from garage.version import migrations_to_come

# Below this a photo, or a database that tidies itself, may find no room.
LEAST_FREE_MB = 50


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
    facts["free_disk_mb"] = free_disk_mb()
    facts["disk"] = _disk(facts["free_disk_mb"])
    return facts


def ready() -> dict[str, bool]:
    """The database answers, is at this version, and there is room to write."""
    try:
        at_version = not migrations_to_come()
        database = True
    except DatabaseError:
        database = at_version = False
    room = _disk(free_disk_mb()) == "ok"
    return {"ready": database and at_version and room, "database": database, "migrated": at_version, "disk": room}


def free_disk_mb() -> int:
    return min(_free(place) for place in (settings.DATA_DIR, settings.PHOTO_DIR)) // 1_000_000


def database_bytes() -> int:
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_database_size(current_database())")
            return int(cursor.fetchone()[0])
    files = (Path(f"{connection.settings_dict['NAME']}{end}") for end in ("", "-wal"))
    return sum(file.stat().st_size for file in files if file.exists())


def _free(place: Path) -> int:
    return shutil.disk_usage(place if place.exists() else settings.DATA_DIR).free


def _disk(free_mb: int) -> str:
    if free_mb < LEAST_FREE_MB:
        return "full"
    return "ok" if os.access(settings.DATA_DIR, os.W_OK) else "read only"

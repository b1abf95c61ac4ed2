"""Which version this is, and whether its database is at it."""

import tomllib
from functools import cache

from django.conf import settings
from django.db import DEFAULT_DB_ALIAS, connections
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder


@cache
def version() -> str:
    return str(tomllib.loads((settings.BASE_DIR / "pyproject.toml").read_text())["project"]["version"])


@cache
def _known() -> frozenset[tuple[str, str]]:
    return frozenset(MigrationLoader(None).disk_migrations)


def migrations_to_come(using: str = DEFAULT_DB_ALIAS) -> list[str]:
    """Those that this version has and the database lacks, each as `app.name`."""
    applied = MigrationRecorder(connections[using]).applied_migrations()
    return [f"{app}.{name}" for app, name in sorted(_known() - applied.keys())]

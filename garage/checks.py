"""System checks that hold what the project depends on in its databases."""

from typing import Any

from django.conf import settings
from django.core.checks import Error, Tags, register
from django.db import connections
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder


@register()
def sqlite_is_set_for_writers(app_configs: Any = None, **kwargs: Any) -> list[Error]:
    """Without IMMEDIATE most concurrent read-then-write work fails at once with "locked"."""
    faults = []
    for alias, config in settings.DATABASES.items():
        if config.get("ATOMIC_REQUESTS"):
            faults.append(
                Error(
                    f"{alias}: ATOMIC_REQUESTS makes every page take the write lock.",
                    id="garage.E002",
                )
            )
        if "sqlite" in config["ENGINE"]:
            options = config.get("OPTIONS", {})
            if options.get("transaction_mode") != "IMMEDIATE" or options.get("timeout", 5) < 20:
                faults.append(
                    Error(
                        f"{alias}: SQLite needs transaction_mode IMMEDIATE and a timeout of 20 s or more.",
                        id="garage.E001",
                    )
                )
    return faults


@register(Tags.database)
def no_database_stopped_halfway(databases: Any = None, **kwargs: Any) -> list[Error]:
    """Migrations began anew at 0.1.0; a database with some of the earlier ones Django passes over without a word."""
    faults = []
    for alias in databases or ():
        applied = MigrationRecorder(connections[alias]).applied_migrations()
        for (app, _), migration in MigrationLoader(None).replacements.items():
            missing = [name for of, name in migration.replaces if (of, name) not in applied]
            if missing and len(missing) < len(migration.replaces):
                faults.append(
                    Error(
                        f"{alias}: the tables of {app} are older than 0.1.0, and stopped before {missing[0]}.",
                        hint="Bring it up to date with the last version before 0.1.0, then with this one.",
                        id="garage.E003",
                    )
                )
    return faults

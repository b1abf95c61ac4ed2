"""System checks that hold the database settings the project depends on."""

from typing import Any

from django.conf import settings
from django.core.checks import Error, register


@register()
def sqlite_is_set_for_writers(app_configs: Any = None, **kwargs: Any) -> list[Error]:
    """Without IMMEDIATE most concurrent read-then-write work fails at once with "locked"."""
    found = []
    for alias, config in settings.DATABASES.items():
        if config.get("ATOMIC_REQUESTS"):
            found.append(
                Error(
                    f"{alias}: ATOMIC_REQUESTS makes every page take the write lock.",
                    id="garage.E002",
                )
            )
        if "sqlite" in config["ENGINE"]:
            options = config.get("OPTIONS", {})
            if options.get("transaction_mode") != "IMMEDIATE" or options.get("timeout", 5) < 20:
                found.append(
                    Error(
                        f"{alias}: SQLite needs transaction_mode IMMEDIATE and a timeout of 20 s or more.",
                        id="garage.E001",
                    )
                )
    return found

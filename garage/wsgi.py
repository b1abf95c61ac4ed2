"""The WSGI application; says at start how the database keeps its promises."""

import logging
import os
import sqlite3

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "garage.settings")
application = get_wsgi_application()


def _say_database() -> None:
    from django.conf import settings

    from garage.pages.health import sqlite_words

    log = logging.getLogger("garage.start")
    if "sqlite" in settings.DATABASES["default"]["ENGINE"]:
        mode, why = sqlite_words()
        log.info("SQLite %s, journal %s: %s", sqlite3.sqlite_version, mode, why)
    else:
        log.info("PostgreSQL at %s", settings.DATABASES["default"]["HOST"] or "the local socket")


_say_database()

"""The soak in small: a few kills and a locked database, and everything that was answered is there once."""

import shutil

import pytest
from django.db import connection, connections

from tests.soak.home import home
from tests.soak.report import lines
from tests.soak.run import Soak

SECONDS, KILLS, LOCKED, WRITERS = 8.0, 3, 2.0, 4
SLOW = 2.0
MEMORY = 240.0
"""MB of a web process that has taken thirty slow uploads before; 191 to 195 was seen. One process at a time opens a
large picture beside it, in 220 MB at the most.
"""


@pytest.fixture
def place(transactional_db, tables):
    """With tables that are made already, on PostgreSQL those of the tests' own database."""
    name = connection.settings_dict["NAME"]
    if connection.vendor == "sqlite":
        with home() as made:
            shutil.copy(tables, made.folder / "garage.sqlite3")
            yield made
    else:
        told = connection.settings_dict
        connections.close_all()
        address = f"postgres://{told['USER']}@{told['HOST']}:{told['PORT']}/postgres"
        with home(address, like=name) as made:
            yield made


def test_what_was_answered_is_there_once_whatever_is_killed(place):
    """How pictures come over a bad line is the same with every database: it is tried with SQLite."""
    place.env["SOAK_PLAIN"] = "on"
    soak = Soak(SECONDS, KILLS, WRITERS, LOCKED, slow=0.0 if place.database else SLOW)
    soak.run(place, place.seeded(WRITERS))
    said = "\n".join(lines(soak, place.kind))
    assert soak.wrong == [], said
    assert sum(soak.killed.values()) >= 1, said
    assert sum(many for many, _, _ in soak.found.values()) >= 1, said
    assert soak.ready, said
    assert place.database or 0 < soak.uploads.memory <= MEMORY, said

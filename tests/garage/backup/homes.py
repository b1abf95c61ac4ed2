"""Garages for the tests of backups: each a SQLite file and a photo folder of its own, on the disk.

The tests' own SQLite is in memory, and what is to be tested here is files.
"""

import json
import lzma
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

from django.conf import settings
from django.contrib.auth.hashers import MD5PasswordHasher
from django.core.management import call_command
from django.db import connections

from garage import env, photo_files
from garage.engine.backup.left_out import LEFT_OUT
from garage.engine.picture_sizes import SIZES
from garage.models import Garage, Membership, Person, Photo, SignInLink, Tries
from parts.actions.places import house_place
from tests.factories import NOW
from tests.house.test_upgrade import KEPT
from tests.pictures import corners, encoded

# When a migration was applied is of the machine too.
PASSWORD = "a stripe across the bolt"  # noqa: S105 (of an invented person)
OF_THE_MACHINE = {*LEFT_OUT, "django_migrations", "sqlite_sequence"}


@dataclass(frozen=True)
class Home:
    folder: Path

    @property
    def database(self) -> Path:
        return self.folder / "garage.sqlite3"

    @property
    def photos(self) -> Path:
        return self.folder / "photos"


@contextmanager
def at_home(home: Home) -> Iterator[Home]:
    """Everything that asks for the database or for photos is answered from this home."""
    before, own = connections.settings["default"], connections["default"]
    kept = settings.DATA_DIR, settings.PHOTO_DIR, settings.BACKUP_DIR
    home.folder.mkdir(parents=True, exist_ok=True)
    connections.settings["default"] = {**before, **env.database("sqlite:///", home.folder)}
    del connections["default"]
    settings.DATA_DIR, settings.PHOTO_DIR, settings.BACKUP_DIR = home.folder, home.photos, home.folder / "backups"
    try:
        yield home
    finally:
        connections["default"].close()
        connections.settings["default"], connections["default"] = before, own
        settings.DATA_DIR, settings.PHOTO_DIR, settings.BACKUP_DIR = kept


def filled(home: Home) -> None:
    """The demo garage as 0.1.0 left it after an evening of work, and what belongs to the machine alone."""
    home.folder.mkdir(parents=True)
    home.database.write_bytes(lzma.decompress(KEPT.read_bytes()))
    with at_home(home):
        call_command("migrate", verbosity=0)
        person = Person.objects.order_by("pk").first()
        person.email = "ines@example.org"
        person.password = MD5PasswordHasher().encode(PASSWORD, "salt")
        person.save()
        SignInLink.objects.create(person=person, digest="d" * 64, expires_at=NOW)
        Tries.objects.create(what="sign in", key="k" * 64, count=3, since=NOW)
        for photo in Photo.objects.all():
            picture = encoded(corners(60 + photo.pk), "JPEG")
            photo_files.write(photo.name, dict.fromkeys(SIZES, picture))
        house_place(Garage.objects.get(), "counted")


def copied(home: Home, folder: Path) -> Home:
    shutil.copytree(home.folder, folder)
    return Home(folder)


def tables(database: Path) -> dict[str, list[dict]]:
    """Every row of every table, as the file has them: read by SQLite alone."""
    with closing(sqlite3.connect(database)) as file:
        file.row_factory = sqlite3.Row
        names = [row["name"] for row in file.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {
            name: [dict(row) for row in file.execute(f"SELECT * FROM {name} ORDER BY 1")]  # noqa: S608
            for name in names
        }


def garage_tables(database: Path) -> dict[str, list[dict]]:
    return {name: rows for name, rows in tables(database).items() if name not in OF_THE_MACHINE}


def regardless_of_json(tables: dict[str, list[dict]]) -> dict[str, list[dict]]:
    """JSON columns as what they say: PostgreSQL keeps the keys of an object in an order of its own."""

    def said(value: object) -> object:
        return json.loads(value) if isinstance(value, str) and value[:1] in ("[", "{") else value

    return {name: [{key: said(cell) for key, cell in row.items()} for row in rows] for name, rows in tables.items()}


def last_numbers(database: Path) -> dict[str, int]:
    given = {row["name"]: row["seq"] for row in tables(database)["sqlite_sequence"]}
    return {name: last for name, last in given.items() if last and name not in OF_THE_MACHINE}


def pictures(folder: Path) -> dict[str, bytes]:
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*.jpg"))}


def balances_add_up(database: Path) -> bool:
    """Whether each balance is the sum of its moves, by a sum in SQL, apart from our own fold."""
    query = """
        SELECT part, place, SUM(quantity) FROM (
            SELECT part_id part, target_id place, quantity FROM parts_move
            UNION ALL SELECT part_id, source_id, -quantity FROM parts_move
            UNION ALL SELECT part_id, place_id, -quantity FROM parts_balance)
        GROUP BY part, place HAVING SUM(quantity) <> 0"""
    with closing(sqlite3.connect(database)) as file:
        return not file.execute(query).fetchall() and file.execute("SELECT COUNT(*) FROM parts_move").fetchone()[0] > 80


def run(command: str, *words: object, **options: object) -> str:
    out = StringIO()
    call_command(command, *(str(word) for word in words), stdout=out, **options)
    return out.getvalue()


def owner() -> Membership:
    return Membership.objects.filter(role="owner").order_by("pk").first()

"""A garage backed up and restored is the same: row by row, photo by photo, guards and all."""

import json
import os
import sqlite3
import stat
import zipfile

import pytest
from django.db import DatabaseError, connection

from builds.work.models.job import Job
from garage.engine.backup.left_out import LEFT_OUT
from garage.facts.books import KIND_OF, Books
from garage.models import Person, Photo
from tests.conftest import signed_in
from tests.factories import JobFactory
from tests.garage.backup.homes import (
    PASSWORD,
    balances_add_up,
    garage_tables,
    last_numbers,
    owner,
    pictures,
    run,
    tables,
)
from tests.house.schema import TRIGGERS, gaps, triggers
from tests.house.upgrade import LEDGER


def manifest(file):
    with zipfile.ZipFile(file) as archive:
        return json.loads(archive.read("manifest.json"))


def test_restored_into_an_empty_place_it_is_the_same(original, backed_up, elsewhere):
    said = run("restore", backed_up)
    assert "0 moves" not in said and "83 moves whose balances add up" in said
    assert "Everybody signs in anew" in said and "before" not in said
    before, after = garage_tables(original.database), garage_tables(elsewhere.database)
    assert after == before and sum(map(len, before.values())) > 900
    assert last_numbers(elsewhere.database) == last_numbers(original.database)
    assert pictures(elsewhere.photos) == pictures(original.photos) and len(pictures(original.photos)) == 10
    assert balances_add_up(elsewhere.database)
    assert gaps(connection) == [] and triggers(connection) == TRIGGERS["sqlite"]
    for statement in LEDGER:
        with pytest.raises(DatabaseError, match="never changed or deleted"), connection.cursor() as cursor:
            cursor.execute(statement)
    assert Person.objects.get(email="ines@example.org").check_password(PASSWORD)
    assert signed_in(owner()).get("/").status_code == 200


def test_what_belongs_to_the_machine_is_left_out_and_said_to_be(original, backed_up):
    there = tables(original.database)
    assert all(there[name] for name in ("django_session", "garage_signinlink", "garage_tries"))
    told = manifest(backed_up)
    assert told["left_out"] == LEFT_OUT
    with zipfile.ZipFile(backed_up) as archive:
        everything = b"".join(archive.read(name) for name in archive.namelist())
    assert b"d" * 64 not in everything and b"k" * 64 not in everything
    assert all(row["session_key"].encode() not in everything for row in there["django_session"])


def test_every_table_is_carried_or_left_out_for_a_reason(home):
    carried = set(Books("default").models)
    assert carried | {*LEFT_OUT, "django_migrations", "sqlite_sequence"} == set(tables(home.database))
    assert carried & set(LEFT_OUT) == set()
    ours = Books("default").models.values()
    assert not any(
        field.related_model._meta.db_table in LEFT_OUT
        for model in ours
        for field in model._meta.local_concrete_fields
        if field.remote_field
    )


def test_every_kind_of_column_is_known(home):
    fields = [field for model in Books("default").models.values() for field in model._meta.local_concrete_fields]
    assert {field.get_internal_type() for field in fields if not field.remote_field} <= set(KIND_OF)


def test_the_manifest_says_what_it_is_of(original, backed_up):
    told = manifest(backed_up)
    assert (told["format"], told["database"], told["moves"]) == (1, "sqlite", 83)
    assert {"garage.0001_cars_and_people", "parts.0002_moves_stay"} <= set(told["migrations"])
    for table, entry in told["tables"].items():
        assert entry["rows"] == len(garage_tables(original.database)[table])


def test_only_its_owner_reads_the_file_and_what_is_there_is_never_overwritten(home):
    said = run("backup")
    (file,) = (home.folder / "backups").iterdir()
    assert said.startswith(f"{file}: ") and " rows in " in said and "10 photo files" in said
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert stat.S_IMODE(file.parent.stat().st_mode) == 0o700
    assert sorted(path.name for path in home.folder.iterdir()) == [
        *("backups", "garage.sqlite3", "garage.sqlite3-journal", "photos"),
    ]


def test_settings_that_are_set_are_in_it_and_secrets_only_when_asked_for(home, monkeypatch, settings):
    monkeypatch.setenv("PUBLIC_URL", "https://garage.example.org")
    monkeypatch.setenv("DATABASE_URL", "postgres://ines:pa55@db/garage")
    for name in ("plain", "secret"):
        run("backup", home.folder / f"{name}.zip", with_secrets=name == "secret")
    plain, secret = (
        zipfile.ZipFile(home.folder / f"{name}.zip").read("settings.env").decode() for name in ("plain", "secret")
    )
    assert "PUBLIC_URL=https://garage.example.org\n" in plain
    assert "pa55" not in plain and "SECRET_KEY" not in plain and settings.SECRET_KEY not in plain
    assert "pa55" in secret and f"SECRET_KEY={settings.SECRET_KEY}\n" in secret
    assert "PATH=" not in plain + secret and os.environ["PATH"] not in plain + secret


def test_a_number_once_given_is_not_given_again(home, tmp_path, quick):
    last = Job.objects.order_by("-pk").first()
    gone = JobFactory(vehicle=last.vehicle)
    number = gone.pk
    gone.delete()
    run("backup", tmp_path / "late.zip")
    run("restore", tmp_path / "late.zip", replace=True)
    assert JobFactory(vehicle=Job.objects.get(pk=last.pk).vehicle).pk == number + 1


def test_a_photo_without_its_file_is_named_both_times(home, tmp_path, quick):
    photo = Photo.objects.order_by("pk").first()
    gone = home.photos / photo.name.hex[:2] / f"{photo.name.hex}-large.jpg"
    gone.unlink()
    line = f"Missing: the file of the photo {gone.relative_to(home.photos)}"
    assert line in run("backup", tmp_path / "less.zip")
    assert manifest(tmp_path / "less.zip")["missing_photos"] == [str(gone.relative_to(home.photos))]
    assert line in run("restore", tmp_path / "less.zip", replace=True)


def test_what_is_replaced_stays_beside(home, original, backed_up, quick):
    Job.objects.all().update(title="Worked on since")
    since = garage_tables(home.database)
    shown = pictures(home.photos)
    strays = list(home.photos.rglob("*.jpg"))[:2]
    for file in strays:
        file.unlink()
    said = run("restore", backed_up, replace=True)
    (kept,) = home.folder.glob("garage.sqlite3.before-*")
    (photos,) = home.folder.glob("photos.before-*")
    assert f"kept as {kept}" in said and f"kept as {photos}" in said
    assert garage_tables(kept) == since
    assert garage_tables(home.database) == garage_tables(original.database) != since
    assert pictures(home.photos) == shown
    assert set(pictures(photos)) == set(shown) - {str(file.relative_to(home.photos)) for file in strays}
    assert sqlite3.connect(kept).execute("PRAGMA integrity_check").fetchone() == ("ok",)

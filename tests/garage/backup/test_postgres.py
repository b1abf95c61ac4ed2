"""Backups on PostgreSQL, and between it and SQLite: run where the tests' database is one."""

import shutil

import pytest
from django.core.management import CommandError
from django.db import DatabaseError, connection

from garage.actions.refill import keys_checked_last
from garage.facts.books import Books
from garage.models import Membership
from parts.models import Move
from tests.factories import GarageFactory, PersonFactory
from tests.garage.backup.homes import (
    Home,
    at_home,
    garage_tables,
    last_numbers,
    pictures,
    regardless_of_json,
    run,
)
from tests.garage.backup.test_damage import move_more
from tests.garage.backup.working import backups_while_people_work
from tests.garage.backup.zips import entries, resealed, zipped
from tests.house.schema import TRIGGERS, gaps, triggers

pytestmark = pytest.mark.skipif(connection.vendor != "postgresql", reason="needs PostgreSQL")
LATER = {"garage": "tests.garage.backup.later"}


@pytest.fixture
def empty(transactional_db, settings, tmp_path, django_db_blocker):
    """The tests' own database, without rows, and an empty folder for photos; second connections are let through."""
    settings.DATA_DIR = tmp_path / "data"
    settings.PHOTO_DIR = settings.DATA_DIR / "photos"
    with django_db_blocker.unblock():
        yield Home(settings.DATA_DIR)


def rows_here():
    return sum(model._base_manager.count() for model in Books("default").models.values())


def test_from_sqlite_to_postgresql_and_back_it_is_the_same(empty, original, backed_up, tmp_path):
    run("restore", backed_up)
    assert gaps(connection) == [] and triggers(connection) == TRIGGERS["postgresql"]
    assert pictures(empty.photos) == pictures(original.photos)
    assert "Every balance is the sum of its moves: 83 moves" in run("check_ledger")
    with pytest.raises(DatabaseError, match="never changed or deleted"), connection.cursor() as cursor:
        cursor.execute("UPDATE parts_move SET quantity = 1")
    said = run("backup", tmp_path / "back.zip")
    assert "10 photo files" in said
    with at_home(Home(tmp_path / "sqlite")) as home:
        run("restore", tmp_path / "back.zip")
    before, after = (regardless_of_json(garage_tables(place.database)) for place in (original, home))
    assert after == before
    # Other tests have counted in this database, in tables that the backup knows nothing of.
    given, wanted = last_numbers(home.database), last_numbers(original.database)
    assert {table: given[table] for table in wanted} == wanted
    assert pictures(home.photos) == pictures(original.photos)


def test_a_number_once_given_is_not_given_again(empty, backed_up, original):
    run("restore", backed_up)
    assert PersonFactory().pk == last_numbers(original.database)["garage_person"] + 1


def test_every_backup_taken_while_people_work_is_whole(empty, backed_up, bare, tmp_path):
    run("restore", backed_up)
    last = backups_while_people_work(bare, tmp_path)
    assert len(garage_tables(last)["parts_move"]) == Move.objects.count()


def test_a_restore_that_fails_is_rolled_back(empty, backed_up, tmp_path):
    held = entries(backed_up)
    file = tmp_path / "changed.zip"
    file.write_bytes(zipped(list(resealed(held | move_more(held)).items())).getvalue())
    with pytest.raises(CommandError, match="has a ledger that does not add up"):
        run("restore", file)
    assert rows_here() == 0 and not list(empty.folder.rglob("*.jpg"))
    assert triggers(connection) == TRIGGERS["postgresql"]


def test_it_is_restored_into_an_empty_database_alone(empty, backed_up):
    with pytest.raises(CommandError, match=r"^--replace works on SQLite alone: make a new database"):
        run("restore", backed_up, replace=True)
    PersonFactory()
    with pytest.raises(CommandError, match=r"^The database here is not empty: restore into a new one\.$"):
        run("restore", backed_up)
    assert rows_here() == 1


def test_an_older_one_comes_into_a_database_that_is_ahead(empty, backed_up, settings):
    settings.MIGRATION_MODULES = {**settings.MIGRATION_MODULES, **LATER}
    try:
        run("migrate", verbosity=0)
        run("restore", backed_up)
        with connection.cursor() as cursor:
            cursor.execute("SELECT colour FROM garage_garage")
            assert cursor.fetchall() == [("green",)]
        assert triggers(connection) == TRIGGERS["postgresql"]
    finally:
        run(
            "migrate",
            "garage",
            sorted(name for app, name in Books("default").migrations if app == "garage")[-2],
            verbosity=0,
        )
        shutil.rmtree(empty.folder, ignore_errors=True)


def test_a_row_may_come_before_the_one_that_it_names_in_tables_made_in_the_same_transaction(db):
    """A migration that adds a column which names a row has it checked at once, until the transaction's end."""
    garage = GarageFactory()
    with connection.cursor() as cursor:
        cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
    keys_checked_last("default")
    Membership.objects.create(garage=garage, person_id=4711, role="owner")
    with pytest.raises(DatabaseError, match="garage_membership_person_id"):
        connection.check_constraints()

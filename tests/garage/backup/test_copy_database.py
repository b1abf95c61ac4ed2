"""One database copied into another by one command: everything compared, nothing half done."""

import shutil
import sqlite3
from contextlib import closing

import pytest
from django.core.management import CommandError
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from garage.actions import copy_database
from garage.engine.backup.left_out import WRITTEN_ANEW
from garage.engine.backup.values import rows_digest
from garage.models import Garage, Person
from tests.factories import PersonFactory
from tests.garage.backup.homes import Home, at_home, last_numbers, regardless_of_json, run, tables


@pytest.fixture
def target(bare, tmp_path):
    """An empty migrated SQLite file, with its address."""
    file = tmp_path / "target.sqlite3"
    shutil.copy(bare.database, file)
    return file


def address(file):
    return f"sqlite:////{file}"


def copied_tables(file):
    apart = {*WRITTEN_ANEW, "django_migrations", "sqlite_sequence"}
    return {name: rows for name, rows in tables(file).items() if name not in apart}


def empty(file):
    return not any(copied_tables(file).values())


def test_everything_is_copied_and_compared_and_said(home, target):
    said = run("copy_database", address(target))
    here, there = copied_tables(home.database), copied_tables(target)
    assert there == here and here["django_session"] and here["garage_signinlink"] and here["garage_tries"]
    for name, rows in here.items():
        assert any(line.split()[0] == str(len(rows)) and line.split()[2:] == [name] for line in said.splitlines())
    assert f"{sum(map(len, here.values()))} rows in {len(here)} tables, from SQLite to SQLite" in said
    assert "the balances of 83 moves" in said
    with closing(sqlite3.connect(target)) as file, pytest.raises(sqlite3.IntegrityError, match="never changed"):
        file.execute("DELETE FROM parts_move")
    given = {row["name"]: row["seq"] for row in tables(target)["sqlite_sequence"]}
    assert {*last_numbers(home.database).items()} <= {*given.items()}


def test_what_cannot_be_copied_is_said_and_the_target_stays_empty(home, target, monkeypatch):
    for wrong, sentence in (
        ("mysql://there", "starts with sqlite:/// or postgres://"),
        (address(home.database), "the database which is in use here"),
    ):
        with pytest.raises(CommandError, match=sentence):
            run("copy_database", wrong)

    counts = iter([[(1, 1)], [(1, 2)]])
    with monkeypatch.context() as patch:
        patch.setattr(copy_database, "_writes", lambda: next(counts))
        with pytest.raises(CommandError, match="Somebody wrote here meanwhile: stop the server"):
            run("copy_database", address(target))
    assert empty(target)

    with monkeypatch.context() as patch:
        # One row is lost on the way: the comparison says in which table.
        whole = copy_database.load
        patch.setattr(copy_database, "load", lambda using, model, rows: whole(using, model, list(rows)[1:]))
        with pytest.raises(CommandError, match=r"came out otherwise: \d+ rows and \d+\. Nothing was copied"):
            run("copy_database", address(target))
    assert empty(target)

    run("copy_database", address(target))
    before = copied_tables(target)
    with pytest.raises(CommandError, match="holds rows already: make an empty one"):
        run("copy_database", address(target))
    assert copied_tables(target) == before

    with connection.cursor() as cursor:
        newest = MigrationExecutor(connection).loader.graph.leaf_nodes("parts")[0]
        cursor.execute("DELETE FROM django_migrations WHERE app = %s AND name = %s", newest)
    with pytest.raises(CommandError, match=r"is not up to date: run `manage\.py migrate` first"):
        run("copy_database", address(target))


def test_a_digest_is_the_same_in_whatever_order_and_form_a_database_keeps_json():
    kinds = ("integer", "json")
    one = rows_digest(kinds, [(1, {"b": 1e22, "a": [1.0, None]}), (2, None)])
    assert one == rows_digest(kinds, [(1, {"a": [1, None], "b": 10**22}), (2, None)]) and one[0] == 2
    assert one != rows_digest(kinds, [(1, {"a": [1, None], "b": 10**22}), (2, 0)])
    assert rows_digest(kinds, [(1, 0.5)]) != rows_digest(kinds, [(1, 0)])
    assert rows_digest(("text",), [("1",)]) != rows_digest(("integer",), [(1,)])


@pytest.fixture
def postgres(transactional_db, django_db_blocker):
    """The address of the tests' own database, which holds no rows; second connections are let through."""
    there = connection.settings_dict
    with django_db_blocker.unblock():
        yield f"postgres://{there['USER']}:{there['PASSWORD']}@{there['HOST']}:{there['PORT']}/{there['NAME']}"


@pytest.mark.skipif(connection.vendor != "postgresql", reason="needs PostgreSQL")
def test_from_sqlite_to_postgresql_and_back(postgres, original, target, tmp_path):
    home = Home(shutil.copytree(original.folder, tmp_path / "home"))
    with at_home(home):
        last = Person.objects.order_by("-pk").first()
        number, name = last.pk, last.name
        Person.objects.filter(pk=number).update(name=f"{name}\0")
        with pytest.raises(CommandError, match=r"garage_person holds what that database does not take .*NUL"):
            run("copy_database", postgres)
        Person.objects.filter(pk=number).update(name=name)
    assert not Garage.objects.exists()
    with at_home(home):
        said = run("copy_database", postgres)
    assert "from SQLite to PostgreSQL" in said
    assert Garage.objects.get().name == "Quayside Lock-up"
    said = run("copy_database", address(target))
    assert "from PostgreSQL to SQLite" in said
    assert regardless_of_json(copied_tables(target)) == regardless_of_json(copied_tables(home.database))
    for table, rows in copied_tables(home.database).items():
        with connection.cursor() as cursor:
            cursor.execute(f"SELECT COUNT(*) FROM {table}")  # noqa: S608 (names of ours)
            assert cursor.fetchone()[0] == len(rows), table
    assert PersonFactory().pk > number
    with at_home(home), pytest.raises(CommandError, match="holds rows already"):
        run("copy_database", postgres)
    assert "Every balance is the sum of its moves: 83 moves" in run("check_ledger")

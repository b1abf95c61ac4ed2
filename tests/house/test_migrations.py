"""Migrations make what the models say, guards and all, and lean on nothing of ours that may move."""

import ast
from io import StringIO

import pytest
from django.core.management import call_command
from django.core.management.base import SystemCheckError
from django.db import connection
from django.db.migrations.recorder import MigrationRecorder

from tests.house.places import APPS, ROOT, shown
from tests.house.schema import TRIGGERS, gaps, triggers

MIGRATIONS = [file for app in APPS for file in sorted((ROOT / app / "migrations").glob("[0-9]*.py"))]
LAST_BEFORE = {"garage": "0010_photos", "parts": "0004_photos_of_parts", "builds": "0020_job_eats"}


def imported(file):
    """The first word of whatever a file imports."""
    for node in ast.walk(ast.parse(file.read_text())):
        if isinstance(node, ast.Import):
            yield from (name.name.split(".")[0] for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield (node.module or "").split(".")[0] if not node.level else "a neighbour"


@pytest.mark.parametrize("file", MIGRATIONS, ids=shown)
def test_a_migration_imports_nothing_of_ours(file):
    assert not {*imported(file)} & {*APPS, "tests", "a neighbour"}


@pytest.mark.django_db
def test_the_models_have_no_change_that_no_migration_makes():
    out = StringIO()
    call_command("makemigrations", check_changes=True, dry_run=True, stdout=out)
    assert "No changes detected" in out.getvalue()


@pytest.mark.django_db
def test_a_database_made_by_migrations_has_what_the_models_say():
    assert gaps(connection) == []


@pytest.mark.django_db
def test_the_ledger_is_guarded_by_the_database_itself():
    assert triggers(connection) == TRIGGERS[connection.vendor]


@pytest.mark.django_db
@pytest.mark.parametrize("app", APPS)
def test_a_database_between_two_older_states_is_refused_in_words(app):
    MigrationRecorder(connection).record_unapplied(app, LAST_BEFORE[app])
    said = f"the tables of {app} are older than 0.1.0, and stopped before {LAST_BEFORE[app]}"
    with pytest.raises(SystemCheckError, match=said):
        call_command("migrate", skip_checks=False, verbosity=0)

"""How the server stands, in the same words on its keeper's page and in the terminal."""

from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import call_command
from django.db import DatabaseError
from django_tasks_db.models import DBTaskResult, get_date_max

from garage.models import Membership
from tests.conftest import signed_in
from tests.factories import NOW, GarageFactory, MembershipFactory
from tests.pages import words


@pytest.fixture
def keeper(db, now, settings, tmp_path):
    """The owner of the one garage that is here, on a disk of its own."""
    settings.DATA_DIR = tmp_path
    settings.BACKUP_DIR, settings.PHOTO_DIR = tmp_path / "backups", tmp_path / "photos"
    settings.BACKUP_DIR.mkdir()
    (settings.BACKUP_DIR / f"witness-mark-{NOW:%Y%m%dT%H%M%S}Z.zip").write_bytes(b"x" * 1500)
    member = MembershipFactory(garage=GarageFactory(name="Quayside Lock-up"), role="owner", person__name="Ines")
    MembershipFactory(garage=member.garage, role="helper")
    return member


def status():
    out, code = StringIO(), 0
    try:
        call_command("status", stdout=out)
    except SystemExit as end:
        code = end.code
    return code, out.getvalue()


def task(**more):
    given = {"status": "READY", "task_path": "parts.tasks.make_backup", "run_after": get_date_max()}
    row = DBTaskResult.objects.create(backend_name="default", args_kwargs={}, traceback="", **given | more)
    return DBTaskResult.objects.filter(pk=row.pk)


def test_a_server_that_runs_well_says_so_and_nothing_is_wrong(keeper):
    task().update(enqueued_at=NOW)
    code, said = status()
    assert code == 0 and "!" not in said
    shown = words(signed_in(keeper).get("/garage/server/").content.decode())
    for line in (
        "0.1.0",
        "all applied",
        "1 waiting; 0 under way; 0 failed in the last week",
        "Tue 2 Mar 17:00, 2 kB; 1 file kept",
        "1 garage, 2 people",
    ):
        assert line in shown and line in said


def test_what_is_wrong_stands_first_and_ends_the_command_with_one(keeper, settings, monkeypatch):
    task().update(enqueued_at=NOW - timedelta(hours=2))
    task(status="FAILED", task_path="parts.tasks.other").update(finished_at=NOW - timedelta(days=1))
    task(run_after=NOW + timedelta(hours=1))  # not its turn yet
    next(settings.BACKUP_DIR.iterdir()).unlink()
    monkeypatch.setattr("garage.pages.server.migrations_to_come", lambda: ["garage.0999_later"])
    monkeypatch.setattr("garage.pages.server.free_disk_mb", lambda: 49)
    code, said = status()
    assert code == 1 and said.count("\n! ") + said.startswith("!") == 4
    shown = words(signed_in(keeper).get("/garage/server/").content.decode())
    for line in (
        "Migrations 1 is missing: run “manage.py migrate”",
        "Queue 1 waiting; 0 under way; 1 failed in the last week; the last was parts.tasks.other: the log says why;"
        " one waits since Tue 2 Mar 15:00: is “manage.py worker” running?",
        "Disk 49.0 MB free",
        "Last backup none yet",
    ):
        assert line in shown


def test_it_is_for_whoever_owns_every_garage_on_it(keeper):
    helper = Membership.objects.get(role="helper")
    assert signed_in(helper).get("/garage/server/").status_code == 403
    MembershipFactory(role="owner")  # of a garage of his own
    assert signed_in(keeper).get("/garage/server/").status_code == 403


def test_a_process_is_live_whatever_the_database_does_and_ready_only_with_it(client, keeper, monkeypatch):
    assert (client.get("/health/live/").status_code, client.get("/health/live/").json()) == (200, {"live": True})
    whole = {"ready": True, "database": True, "migrated": True, "disk": True}
    assert (client.get("/health/ready/").status_code, client.get("/health/ready/").json()) == (200, whole)

    def away():
        raise DatabaseError("no such host 10.0.0.7")

    for found, wrong in ((away, "database"), (lambda: ["garage.0999_later"], "migrated")):
        monkeypatch.setattr("garage.pages.health.migrations_to_come", found)
        answer = client.get("/health/ready/")
        assert answer.status_code == 503 and answer.json()[wrong] is answer.json()["ready"] is False
        assert "10.0.0.7" not in answer.content.decode() and client.get("/health/live/").status_code == 200
    monkeypatch.setattr("garage.pages.health.migrations_to_come", lambda: [])
    monkeypatch.setattr("garage.pages.health.LEAST_FREE_MB", 10**9)
    assert client.get("/health/ready/").status_code == 503

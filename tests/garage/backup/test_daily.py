"""A backup a day by itself, one by a tap, and what is said when it goes wrong."""

import zipfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from django_tasks_db.models import DBTaskResult

from garage.actions import daily_backup
from garage.facts.backups import TASK, asked_backup, garages_of_others, kept_backups
from garage.management.commands import worker
from garage.models import Garage, Membership, Person
from garage.pages.backups import backups_page
from parts.tasks import make_backup

AT = datetime(2026, 11, 29, 2, 10, tzinfo=UTC)
HOUR, DAY = timedelta(hours=1), timedelta(days=1)


def asked(**of):
    return DBTaskResult.objects.filter(task_path=TASK, **of)


def done(**answer):
    """The worker made what was asked for."""
    asked(status="READY").update(status="SUCCESSFUL", finished_at=AT, return_value=answer)


def file(settings, name: str) -> Path:
    settings.BACKUP_DIR.mkdir(parents=True, exist_ok=True)
    path = settings.BACKUP_DIR / name
    path.write_bytes(b"x" * 1500)
    return path


def test_the_task_makes_a_whole_daily_one_and_says_so(home, settings, monkeypatch):
    monkeypatch.setattr("parts.tasks.clock.now", lambda: AT)
    old = [file(settings, f"witness-mark-daily-202401{day:02}T010000Z.zip") for day in range(1, 29)]
    by_hand = file(settings, "witness-mark-20240101T020000Z.zip")
    said = make_backup.func(True)
    (made,) = [one for one in kept_backups() if one.at == AT]
    assert said == {"whole": True, "said": said["said"]} and " rows, " in said["said"]
    assert made.daily and made.file.name == "witness-mark-daily-20261129T021000Z.zip"
    assert zipfile.ZipFile(made.file).testzip() is None
    # Six more days, of four more weeks the Sunday; January has its newest among them.
    assert [day for day, path in enumerate(old, 1) if path.exists()] == [7, 14, 21, 23, 24, 25, 26, 27, 28]
    assert by_hand.exists()


def test_by_hand_takes_nothing_away(home, settings, monkeypatch):
    monkeypatch.setattr("parts.tasks.clock.now", lambda: AT)
    old = [file(settings, f"witness-mark-daily-202401{day:02}T010000Z.zip") for day in range(1, 29)]
    assert make_backup.func(False)["whole"]
    assert all(path.exists() for path in old)


def test_a_folder_that_cannot_be_written_is_said(home, settings):
    settings.BACKUP_DIR.write_text("a file where the folder should be")
    said = make_backup.func(True)
    assert not said["whole"] and str(said["said"]).startswith("No backup was made:")


def test_one_is_due_a_day_after_the_last_of_any_kind(db, settings, tmp_path):
    settings.BACKUP_DIR = tmp_path / "copies"
    assert daily_backup.ask_when_due(at=AT), "none yet"
    done(whole=True)
    file(settings, f"witness-mark-{AT:%Y%m%dT%H%M%S}Z.zip")
    asked().delete()
    assert not daily_backup.ask_when_due(at=AT + DAY - timedelta(seconds=1))
    assert daily_backup.ask_when_due(at=AT + DAY)
    assert not daily_backup.ask_when_due(at=AT + DAY), "one waits already"
    assert asked().count() == 1


def test_after_a_fault_it_is_tried_again_an_hour_later(db, settings, tmp_path):
    settings.BACKUP_DIR = tmp_path / "copies"
    now = datetime.now(UTC)  # the queue's own clock
    assert daily_backup.ask_when_due(at=now)
    done(whole=False, said="No backup was made: the disk is full.")
    assert not daily_backup.ask_when_due(at=now + HOUR - timedelta(minutes=1))
    assert daily_backup.ask_when_due(at=now + HOUR + timedelta(minutes=1))


def test_one_that_hangs_is_asked_for_again_an_hour_later(db, settings, tmp_path):
    settings.BACKUP_DIR = tmp_path / "copies"
    now = datetime.now(UTC)
    assert daily_backup.ask(daily=False, at=now)
    assert not daily_backup.ask(daily=False, at=now + HOUR - timedelta(minutes=1))
    assert daily_backup.ask(daily=False, at=now + HOUR + timedelta(minutes=1))


def test_off_by_the_settings(db, settings, tmp_path):
    settings.BACKUP_DIR, settings.BACKUP_DAILY = tmp_path / "copies", False
    assert not daily_backup.ask_when_due(at=AT)


def test_the_worker_looks_whether_one_is_due(db, settings, tmp_path, monkeypatch):
    settings.BACKUP_DIR = tmp_path / "copies"
    monkeypatch.setattr(worker, "close_old_connections", lambda: None)  # the test's own stays
    worker.look_for_backup()
    assert [row.args_kwargs["args"] for row in asked()] == [[True]]


@pytest.fixture
def alone(cast, settings, tmp_path):
    """The cast's garage is the only one of the server."""
    Garage.objects.exclude(pk=cast.garage.pk).delete()
    settings.BACKUP_DIR = tmp_path / "copies"
    return cast


def test_a_tap_asks_for_one_and_the_page_says_when_and_where(alone, settings):
    client = alone.client("owner")
    assert "There is no backup yet." in client.get("/garage/backups/").content.decode()
    client.press("/garage/backups/add/", {})
    assert [row.args_kwargs["args"] for row in asked()] == [[False]]
    assert "is being made" in client.get("/garage/backups/").content.decode()
    done(whole=True, said="9 rows, 2 kB.")
    file(settings, f"witness-mark-{datetime.now(UTC):%Y%m%dT%H%M%S}Z.zip")
    shown = client.get("/garage/backups/").content.decode()
    assert str(settings.BACKUP_DIR) in shown and "2 kB" in shown and "made by hand" in shown
    assert "notice" not in shown.split("<main", 1)[1].split("<dl", 1)[0]
    assert "Backups" in client.get("/garage/").content.decode()


def test_the_page_says_what_went_wrong_until_one_is_made(alone, settings):
    client = alone.client("owner")
    client.press("/garage/backups/add/", {})
    done(whole=False, said="No backup was made: the disk is full, under /srv.")
    assert "the disk is full, under /srv" in client.get("/garage/backups/").content.decode()
    client.press("/garage/backups/add/", {})
    done(whole=True, said="9 rows, 2 kB.")
    assert "the disk is full" not in client.get("/garage/backups/").content.decode()


def test_one_made_by_command_since_is_enough(alone, settings):
    client = alone.client("owner")
    client.press("/garage/backups/add/", {})
    done(whole=False, said="No backup was made: the disk is full, under /srv.")
    file(settings, f"witness-mark-{AT - HOUR:%Y%m%dT%H%M%S}Z.zip")
    assert "the disk is full" in backups_page(AT).wrong
    file(settings, f"witness-mark-{AT + HOUR:%Y%m%dT%H%M%S}Z.zip")
    assert not backups_page(AT + HOUR).wrong


def test_one_that_broke_off_is_said(db, settings, tmp_path):
    settings.BACKUP_DIR = tmp_path / "copies"
    daily_backup.ask(daily=False, at=AT)
    asked().update(status="FAILED", finished_at=AT)
    assert asked_backup().ended and "broke off" in backups_page(AT).wrong


@pytest.mark.parametrize(("age", "old"), [(2 * DAY, False), (2 * DAY + timedelta(seconds=1), True)])
def test_two_days_without_one_is_said(db, settings, tmp_path, age, old):
    settings.BACKUP_DIR = tmp_path / "copies"
    file(settings, f"witness-mark-daily-{AT:%Y%m%dT%H%M%S}Z.zip")
    assert backups_page(AT + age).old is old


@pytest.mark.parametrize("who", ["helper", "viewer"])
def test_only_the_owner_asks(alone, who):
    client = alone.client(who)
    assert client.get("/garage/backups/").status_code == 403
    assert client.press("/garage/backups/add/", {}).status_code == 403
    assert not asked().exists()


def test_where_others_keep_garages_no_page_makes_one_of_them_all(cast):
    client = cast.client("owner")
    assert client.get("/garage/backups/").status_code == 403
    assert client.press("/garage/backups/add/", {}).status_code == 403


def test_garages_of_others_are_those_that_one_does_not_own(alone):
    ines = Person.objects.get(memberships__garage=alone.garage, memberships__role="owner")
    assert garages_of_others(ines) == 0
    second = Garage.objects.create(name="Second", time_zone="UTC")
    assert garages_of_others(ines) == 1
    Membership.objects.create(garage=second, person=ines, role="helper")
    assert garages_of_others(ines) == 1
    Membership.objects.filter(garage=second).update(role="owner")
    assert garages_of_others(ines) == 0


def test_health_says_when_the_last_was_made_and_not_where(client, db, settings, tmp_path):
    settings.BACKUP_DIR = tmp_path / "copies"
    assert client.get("/health/").json()["last_backup"] is None
    file(settings, f"witness-mark-daily-{AT:%Y%m%dT%H%M%S}Z.zip")
    answer = client.get("/health/")
    assert answer.json()["last_backup"] == AT.isoformat()
    assert "copies" not in answer.content.decode()


def test_one_that_is_taken_away_meanwhile_hides_no_other(db, settings, tmp_path):
    settings.BACKUP_DIR = tmp_path
    kept = {file(settings, f"witness-mark-2026112{day}T010000Z.zip") for day in range(3)}
    (tmp_path / "witness-mark-20261125T010000Z.zip").symlink_to(tmp_path / "nothing")
    assert {one.file for one in kept_backups()} == kept

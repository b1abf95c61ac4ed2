"""What cannot be done is said in one sentence, and leaves everything as it was."""

import errno
import os
import sqlite3
import time

import pytest
from django.core.management import CommandError
from django.db import connection

from garage import photo_files, still
from garage.backup_file import BackupWriter
from parts.models import Balance
from tests.garage.backup.homes import garage_tables, pictures, run


@pytest.fixture
def as_it_was(home):
    """Called at the end: nothing changed, nothing half done is left."""
    before, shown = garage_tables(home.database), pictures(home.photos)

    def check():
        assert (garage_tables(home.database), pictures(home.photos)) == (before, shown)
        names = {path.name for path in home.folder.iterdir()} - {"garage.sqlite3-journal", "backups"}
        assert names == {"garage.sqlite3", "photos"}

    return check


class FullDisk:
    """A file that takes so many bytes and no more."""

    def __init__(self, file, room):
        self.file, self.room = file, room

    def write(self, data):
        self.room -= len(data)
        if self.room < 0:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return self.file.write(data)

    def __getattr__(self, name):
        return getattr(self.file, name)


@pytest.mark.parametrize("room", [0, 100, 5000, 40_000])
@pytest.mark.filterwarnings("error::pytest.PytestUnraisableExceptionWarning")
def test_a_full_disk_leaves_no_half_backup(home, as_it_was, monkeypatch, room):
    begin = BackupWriter.__init__
    monkeypatch.setattr(BackupWriter, "__init__", lambda self, out, at: begin(self, FullDisk(out, room), at))
    with pytest.raises(
        CommandError, match=r"^No backup was made: the disk is full, under .*/home or under .*/backups\.$"
    ):
        run("backup")
    assert list((home.folder / "backups").iterdir()) == []
    as_it_was()


def test_a_disk_too_full_for_the_snapshot_is_the_same_sentence(home, as_it_was, monkeypatch):
    def small(file):
        made = sqlite3.connect(file)
        made.execute("PRAGMA max_page_count=10")
        return made

    class Narrow:
        connect, Error = staticmethod(small), sqlite3.Error

    monkeypatch.setattr(still, "sqlite3", Narrow)
    with pytest.raises(CommandError, match="the disk is full"):
        run("backup")
    as_it_was()


def test_a_disk_that_fills_up_while_restoring_changes_nothing(home, as_it_was, backed_up, quick, monkeypatch):
    for file in list(home.photos.rglob("*.jpg"))[:6]:
        file.rename(file.with_suffix(".moved"))
    shown, put, calls = pictures(home.photos), photo_files.put, []

    def fill(*args):
        calls.append(args)
        if len(calls) == 4:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        put(*args)

    monkeypatch.setattr(photo_files, "put", fill)
    with pytest.raises(CommandError, match=r"^Nothing was restored: the disk is full\.$"):
        run("restore", backed_up, replace=True)
    assert pictures(home.photos) == shown
    for file in home.photos.rglob("*.moved"):
        file.rename(file.with_suffix(".jpg"))
    as_it_was()


def test_a_place_that_is_not_empty_is_left_alone(home, as_it_was, backed_up):
    with pytest.raises(CommandError, match=r"^The database here is not empty; --replace moves what is there aside\.$"):
        run("restore", backed_up)
    as_it_was()


def test_a_database_that_cannot_be_read_is_replaced_only_when_told_to(home, backed_up, quick):
    connection.close()
    home.database.write_bytes(b"no database at all" * 1000)
    with pytest.raises(CommandError, match=r"cannot be read \(file is not a database\); --replace moves"):
        run("restore", backed_up)
    connection.close()
    run("restore", backed_up, replace=True)
    assert len(garage_tables(home.database)["garage_person"]) == 3
    assert next(home.folder.glob("garage.sqlite3.before-*")).read_bytes().startswith(b"no database")


def test_a_file_that_is_there_is_not_overwritten(home, as_it_was, tmp_path):
    (tmp_path / "mine.zip").write_text("mine")
    with pytest.raises(CommandError, match=r"mine\.zip is there already, and is left as it is\.$"):
        run("backup", tmp_path / "mine.zip")
    assert (tmp_path / "mine.zip").read_text() == "mine"
    assert str(tmp_path / "witness-mark-") in run("backup", tmp_path)
    as_it_was()


def test_where_nobody_may_write_is_one_sentence(home, as_it_was):
    (home.folder / "backups").write_text("a file, no folder")
    with pytest.raises(CommandError, match=r"^No backup was made: .*backups"):
        run("backup")
    (home.folder / "backups").unlink()
    as_it_was()


def test_an_empty_database_has_nothing_to_back_up(elsewhere):
    with pytest.raises(CommandError, match="there is no garage in this database"):
        run("backup")


def test_balances_that_are_off_are_said_and_not_restored(home, tmp_path, quick):
    Balance.objects.filter(pk=Balance.objects.order_by("pk").first().pk).update(outside=True, quantity=4711)
    file = tmp_path / "off.zip"
    with pytest.raises(CommandError, match=r"is written, but cannot be restored as it is: .* the balance says 4711"):
        run("backup", file)
    with pytest.raises(CommandError, match=r"has a ledger that does not add up: .* the balance says 4711"):
        run("restore", file, replace=True)


def test_what_a_killed_backup_left_goes_after_a_day(home):
    for name, age in (("old", 2 * 24 * 3600), ("young", 3600)):
        left = home.folder / f".unfinished-{name}"
        left.mkdir()
        os.utime(left, (time.time() - age, time.time() - age))
    run("backup")
    assert [path.name for path in home.folder.glob(".unfinished-*")] == [".unfinished-young"]

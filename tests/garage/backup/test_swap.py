"""The file of a garage is exchanged at one instant; who still has the old one open harms neither."""

import shutil
import sqlite3
from contextlib import closing

import pytest

from garage import sqlite_place
from garage.actions.refused import Refused


def made(path, words, journal="TRUNCATE"):
    """A database of one row, open."""
    file = sqlite3.connect(path, timeout=0.1, isolation_level=None)
    file.execute(f"PRAGMA journal_mode={journal}")
    file.execute("CREATE TABLE words (word TEXT)")
    file.execute("INSERT INTO words VALUES (?)", [words])
    return file


def words(path):
    with closing(sqlite3.connect(path)) as file:
        assert file.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        return [word for (word,) in file.execute("SELECT word FROM words")]


@pytest.fixture
def paths(tmp_path, monkeypatch):
    monkeypatch.setattr(sqlite_place, "PATIENCE", 0.1)
    made(tmp_path / "new", "new").close()
    return tmp_path / "new", tmp_path / "live", tmp_path / "aside"


def test_a_server_that_still_has_the_old_file_open_cannot_write_into_either(paths):
    new, live, aside = paths
    with closing(made(live, "old")) as server:
        assert sqlite_place.swap(new, live, aside)
        with pytest.raises(sqlite3.OperationalError, match="readonly database"):
            server.execute("INSERT INTO words VALUES ('lost')")
    assert (words(live), words(aside)) == (["new"], ["old"])


@pytest.mark.parametrize("journal", ["TRUNCATE", "WAL"])
def test_who_writes_at_that_moment_is_not_interrupted(paths, journal):
    new, live, aside = paths
    with closing(made(live, "old", journal)) as server:
        server.execute("BEGIN IMMEDIATE")
        server.execute("INSERT INTO words VALUES ('more')")
        with pytest.raises(Refused, match="Stop the server"):
            sqlite_place.swap(new, live, aside)
        server.execute("COMMIT")
    assert words(live) == ["old", "more"] and words(new) == ["new"] and not aside.exists()


def test_with_a_write_ahead_log_whoever_is_there_is_noticed(paths):
    """He could go on writing to the old file and never hear of it."""
    new, live, aside = paths
    with closing(made(live, "old", "WAL")), pytest.raises(Refused, match="somebody has the garage open"):
        sqlite_place.swap(new, live, aside)
    assert sqlite_place.swap(new, live, aside)
    assert (words(live), words(aside)) == (["new"], ["old"])


@pytest.mark.parametrize("side", ["-journal", "-wal"])
def test_no_journal_of_a_damaged_file_is_left_to_be_played_into_the_new_one(paths, side):
    new, live, aside = paths
    live.write_bytes(b"no database at all" * 100)
    journal = live.with_name(f"live{side}")
    journal.write_bytes(b"\x37\x7f\x06\x82" + b"left over" * 500)
    assert sqlite_place.swap(new, live, aside)
    assert not journal.exists() or not journal.stat().st_size
    assert words(live) == ["new"]
    assert aside.read_bytes().startswith(b"no database")


def test_a_file_system_without_second_names_gets_a_copy(paths, monkeypatch):
    def refuse(*args):
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr("os.link", refuse)
    new, live, aside = paths
    made(live, "old").close()
    assert sqlite_place.swap(new, live, aside)
    assert (words(live), words(aside)) == (["new"], ["old"])


def test_where_nothing_was_nothing_is_kept(paths):
    new, live, aside = paths
    shutil.copy(new, live.with_name("other"))
    assert not sqlite_place.swap(new, live, aside)
    live.write_bytes(b"")
    assert not sqlite_place.swap(live.with_name("other"), live, aside)
    assert words(live) == ["new"] and not aside.exists()

"""Twenty backups while five people work: each is whole, and its balances add up."""

import sqlite3
from contextlib import closing
from threading import Timer

from django.db import connection

from tests.garage.backup.homes import garage_tables, run
from tests.garage.backup.working import backups_while_people_work
from tests.garage.backup.zips import entries

OF_THE_MOMENT = ("manifest.json", "settings.env")


def test_every_backup_taken_while_people_work_is_whole(home, bare, tmp_path):
    last = backups_while_people_work(bare, tmp_path)
    assert garage_tables(last) == garage_tables(home.database)


def test_what_is_half_written_in_the_file_is_in_no_backup(home, backed_up, tmp_path):
    """A write that has outgrown its memory stands in the file already; then it is taken back."""
    connection.close()
    before = home.database.read_bytes()
    with closing(sqlite3.connect(home.database, isolation_level=None, check_same_thread=False)) as writer:
        writer.execute("PRAGMA cache_size = 1")
        writer.execute("BEGIN IMMEDIATE")
        writer.execute("UPDATE parts_balance SET quantity = quantity + 1")
        writer.execute("UPDATE builds_job SET note = 'half written'")
        assert home.database.read_bytes() != before, "nothing is half written: a copied file would do"
        gives_up = Timer(0.5, writer.execute, ["ROLLBACK"])
        gives_up.start()
        run("backup", tmp_path / "meanwhile.zip")
        gives_up.join()
    made, wanted = entries(tmp_path / "meanwhile.zip"), entries(backed_up)
    # When it was made and which settings were set then may differ; no row and no photo may.
    assert {name: data for name, data in made.items() if name not in OF_THE_MOMENT} == {
        name: data for name, data in wanted.items() if name not in OF_THE_MOMENT
    }

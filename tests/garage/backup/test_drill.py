"""The drill: work, back up while working, lose everything, restore, and go on where the backup was taken."""

import shutil

from django.db import connection

from garage import still
from tests.conftest import signed_in
from tests.garage.backup.homes import balances_add_up, garage_tables, last_numbers, owner, pictures, run
from tests.garage.backup.working import at_work, carry, snap


def test_everything_lost_and_brought_back(home, quick, tmp_path, monkeypatch):
    """What the garage was at the moment of the backup is known from the snapshot that it was read from."""
    open_second = still.second_database

    def keep_snapshot(alias, file):
        shutil.copy(file, tmp_path / "moment.sqlite3")
        return open_second(alias, file)

    monkeypatch.setattr(still, "second_database", keep_snapshot)
    with at_work() as shift:
        while shift.done["moves"] < 10 or shift.done["photos"] < 5:
            assert not shift.failed
        run("backup", tmp_path / "usb.zip")
        taken = dict(shift.done)
        while shift.done["moves"] < taken["moves"] + 3:
            assert not shift.failed
    moment = garage_tables(tmp_path / "moment.sqlite3")
    assert len(moment["parts_move"]) < len(garage_tables(home.database)["parts_move"])
    shown = pictures(home.photos)

    connection.close()
    shutil.rmtree(home.folder)
    home.folder.mkdir()

    said = run("restore", tmp_path / "usb.zip")
    assert garage_tables(home.database) == moment
    assert last_numbers(home.database) == last_numbers(tmp_path / "moment.sqlite3")
    assert balances_add_up(home.database)
    assert f"{len(moment['parts_move'])} moves whose balances add up" in said
    named = {row["name"] for row in moment["garage_photo"]}
    back = pictures(home.photos)
    assert len(back) == 2 * len(named) - said.count("Missing:")
    assert all(shown.get(name, data) == data for name, data in back.items())

    assert signed_in(owner()).get("/shelf/").status_code == 200
    for deed in (carry, snap):
        deed(1)
    assert "Every balance is the sum of its moves" in run("check_ledger")

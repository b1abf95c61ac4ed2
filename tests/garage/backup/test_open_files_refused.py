"""What is no open file of a garage, or means ill, is refused in a sentence, and nothing of it comes in."""

import json

import pytest
from django.core.management import CommandError
from django.db import DatabaseError

from garage.actions import import_garage
from tests.garage.backup.homes import garage_tables, pictures, run
from tests.garage.backup.open_files import entries, first, sealed, with_rows, written
from tests.pictures import corners, encoded


def changed(table, **cells):
    return lambda held: sealed(with_rows(held, table, first(**cells)))


def told(**parts):
    return lambda held: sealed(held, **parts)


def more(name, data=b"x"):
    return lambda held: held | {name: data}


def without(name):
    return lambda held: {key: data for key, data in held.items() if key != name}


def photo_changed(data):
    def change(held):
        name = next(name for name in held if name.startswith("photos/"))
        return sealed(held | {name: data})

    return change


def twice(table):
    return lambda held: sealed(with_rows(held, table, lambda rows: [*rows, rows[0] | {"id": 4711}]))


WRONG = {
    "something that its manifest does not name": more("../../etc/cron.d/x"),
    "lacks csv/parts_move.csv": without("csv/parts_move.csv"),
    "is damaged in json/garage_vehicle.json": lambda held: with_rows(held, "garage_vehicle", first(name="Other")),
    "by a newer version of Witness Mark .*format 2": told(format=2, version="9.0"),
    "newer version .*garage.0999_later is not known here": lambda held: sealed(
        held, migrations=[*json.loads(held["manifest.json"])["migrations"], "garage.0999_later"]
    ),
    "a manifest.json that cannot be read": told(made_at=5),
    "a row in garage_vehicle that cannot be read": changed("garage_vehicle", password="x"),  # noqa: S106
    "a row in builds_job that cannot be read": changed("builds_job", title="half \ud800"),
    "a row in parts_part that cannot be read": changed("parts_part", name="nul \0"),
    "a row in parts_move that cannot be read": changed("parts_move", quantity=2**70),
    "a row in garage_event that cannot be read": changed("garage_event", gates_at="9999-12-31T00:00:00+00:00"),
    "what is no garage of ours: .*move_quantity": changed("parts_move", quantity=0),
    "what is no garage of ours: .*": changed("builds_job", vehicle_id=999_999),
    "a time zone in garage_garage that is none": changed("garage_garage", time_zone="Mars/Phobos"),
    r"garage_skill \(slug\) that says what cannot be": changed("garage_skill", slug="no slug at all"),
    r"builds_job \(systems\) that says what cannot be": changed("builds_job", systems={"brakes": 1}),
    "holds 2 garages, not one": twice("garage_garage"),
    "a row in garage_person that is of no garage": twice("garage_person"),
    "has a ledger that does not add up": changed("parts_balance", quantity=4711, outside=True),
    "a photo .* that is no picture": photo_changed(b"GIF89a, or a script"),
    "a photo .* that is larger than its row says": photo_changed(encoded(corners(1601), "JPEG")),
    "lacks the photo": lambda held: sealed(without(next(name for name in held if name.startswith("photos/")))(held)),
    "a photo .* that no row names": lambda held: sealed(held | {f"photos/ab/ab{'0' * 30}-large.jpg": b"x"}),
}


def test_what_is_no_open_file_or_means_ill_is_refused_in_a_sentence_and_nothing_comes_in(
    here, open_file, backed_up, quick_import, tmp_path
):
    held, before, shown = entries(open_file), garage_tables(here.database), pictures(here.photos)

    def refuse(file, sentence):
        with pytest.raises(CommandError, match=f"^Nothing was imported: {file} .*{sentence}"):
            run("import_garage", file)

    for number, (sentence, change) in enumerate(WRONG.items()):
        refuse(written(change(held), tmp_path / f"{number}.zip"), sentence)
    refuse(backed_up, "is a backup of a whole server, which `restore` brings back")
    cut = tmp_path / "cut.zip"
    cut.write_bytes(open_file.read_bytes()[:-2000])
    refuse(cut, "is no garage as open files, or is damaged or cut off")
    with pytest.raises(CommandError, match=r"Nothing was imported: .*gone\.zip: No such file"):
        run("import_garage", tmp_path / "gone.zip")
    with pytest.raises(CommandError, match="is the open files of one garage, which `import_garage` brings in"):
        run("restore", open_file, replace=True)
    assert (garage_tables(here.database), pictures(here.photos)) == (before, shown)


def test_what_the_database_refuses_at_the_end_leaves_no_row_and_no_picture(here, open_file, quick_import, monkeypatch):
    before, shown, load = garage_tables(here.database), pictures(here.photos), import_garage.put_rows

    def breaks(*args):
        load(*args)
        raise DatabaseError("disk I/O error")

    monkeypatch.setattr(import_garage, "put_rows", breaks)
    with pytest.raises(CommandError, match="holds what the SQLite database here refuses: disk I/O error"):
        run("import_garage", open_file)
    assert (garage_tables(here.database), pictures(here.photos)) == (before, shown)

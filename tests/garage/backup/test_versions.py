"""A backup of an older version is brought up to date; one of a newer version is refused."""

import lzma

import pytest
from django.core.management import CommandError

from tests.garage.backup.homes import balances_add_up, garage_tables, run
from tests.house.test_upgrade import KEPT

# What a later migration wrote anew in rows that were there: links that measuring once had drawn, and a garage's own
# recipe, whose parts are told from what lies in the drawer.
WRITTEN_ANEW = {"builds_link": ("why",), "builds_ownrecipe": ("body",)}
RENAMED = {"tolerance": "second", "tolerance_typed": "second_typed"}
LATER = {"garage": "tests.garage.backup.later"}


def as_they_were(after, before):
    """The rows in the columns that they had then."""
    return {
        table: [
            {name: old[name] if name in WRITTEN_ANEW.get(table, ()) else row[RENAMED.get(name, name)] for name in old}
            for row, old in zip(after[table], rows, strict=True)
        ]
        for table, rows in before.items()
    }


def test_a_garage_of_0_1_0_comes_back_in_a_later_version(elsewhere, settings, tmp_path):
    """Backed up as it was kept, with the migrations of its time, before anything is brought up to date."""
    elsewhere.database.write_bytes(lzma.decompress(KEPT.read_bytes()))
    before = garage_tables(elsewhere.database)
    said = run("backup", tmp_path / "old.zip")
    assert said.count("Missing: the file of the photo") == 10  # its pictures were not kept
    settings.MIGRATION_MODULES = {**settings.MIGRATION_MODULES, **LATER}
    run("restore", tmp_path / "old.zip", replace=True)
    after = garage_tables(elsewhere.database)
    assert [row.pop("colour") for row in after["garage_garage"]] == ["green"]
    standing = {row["slug"] for row in after["garage_station"] if row["stands"]}
    assert standing == {"bay", "driveway", "floor"} & {row["slug"] for row in after["garage_station"]}
    assert as_they_were(after, before) == before
    assert all("drawer" in row["body"] for row in after["builds_ownrecipe"])
    assert balances_add_up(elsewhere.database)


def test_one_of_a_newer_version_is_refused_in_one_sentence(home, settings, tmp_path):
    own = settings.MIGRATION_MODULES
    settings.MIGRATION_MODULES = {**settings.MIGRATION_MODULES, **LATER}
    run("migrate", verbosity=0)
    run("backup", tmp_path / "new.zip")
    settings.MIGRATION_MODULES = own
    before = garage_tables(home.database)
    said = r"was made by a newer version of Witness Mark \(0\.1\.0, this is 0\.1\.0\), whose garage\.0999_colour is not"
    with pytest.raises(CommandError, match=said):
        run("restore", tmp_path / "new.zip", replace=True)
    assert garage_tables(home.database) == before

"""A garage that was there before goes on: its database is brought up to date, and used."""

import json
import lzma
import os
import subprocess
import sys

import pytest

from tests.house.places import ROOT

# A small filled SQLite database as 0.1.0 leaves it, kept for upgrades. It was made with the last
# version whose migrations grew one by one: all of them applied, the demo garage loaded and planned,
# then signed in as Ines and Odd a search for a better plan, a finding, a day off, a share link, a
# photo of each kind (the rows; the pictures are not kept), a product, a station, a recipe changed,
# a spreadsheet looked through and not yet written, a move undone, a skill lent, a reading of one's
# own; at last compacted by SQLite (VACUUM) and compressed (xz).
KEPT = ROOT / "tests/data/upgrades/garage-0.1.0.sqlite3.xz"


@pytest.fixture(scope="module")
def garage(tmp_path_factory):
    folder = tmp_path_factory.mktemp("garage")
    (folder / "garage.sqlite3").write_bytes(lzma.decompress(KEPT.read_bytes()))
    env = {"DJANGO_SETTINGS_MODULE": "garage.settings", "DATA_DIR": str(folder), "DATABASE_URL": "sqlite:///"}
    ran = subprocess.run(
        [sys.executable, "-m", "tests.house.upgrade"],
        cwd=ROOT, env={**os.environ, **env}, capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr[-2000:]
    return json.loads(ran.stdout.splitlines()[-1])


def test_nothing_is_left_to_apply_and_the_schema_is_that_of_the_models(garage):
    assert garage["pending"] == garage["gaps"] == []


def test_every_row_is_still_there(garage):
    # Tables that are new since then come with permissions of their own.
    permissions = garage["after"].pop("auth_permission"), garage["before"].pop("auth_permission")
    assert permissions[0] >= permissions[1]
    new = garage["after"].keys() - garage["before"].keys()
    assert {table: garage["after"][table] for table in garage["before"]} == garage["before"]
    assert {garage["after"][table] for table in new} <= {0}
    counted = {table: garage["after"][table] for table in ("garage_vehicle", "builds_job", "parts_move")}
    assert counted == {"garage_vehicle": 4, "builds_job": 54, "parts_move": 83}


def test_the_pages_open(garage):
    assert len(garage["pages"]) >= 45
    assert {path: status for path, status in garage["pages"].items() if status != 200} == {}


def test_work_goes_on_and_balances_are_the_sums_of_their_moves(garage):
    assert garage["writes"] == {"job": "in_hand", "taken": 1, "verb": "pull"}
    assert garage["ledger"] == "Every balance is the sum of its moves: 84 moves."


def test_the_ledger_is_still_guarded(garage):
    assert garage["guarded"] and garage["refused"] == [True, True, True]

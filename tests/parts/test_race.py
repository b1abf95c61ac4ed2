"""Many at once for the last part: as many fitted as there were, every loser told why.

`RACE_ROUNDS=125` makes it two thousand tries of each kind.
"""

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest
from django.db import connection

from tests.house.places import ROOT

ROUNDS = int(os.environ.get("RACE_ROUNDS", "10"))  # of sixteen tries each
LOSER = re.compile(r"refused: Shelf A has none of Hub nut left, not 1\.")


def where(folder, tables):
    """The environment of the race: a file of its own, or the tests' own PostgreSQL database."""
    env = {**os.environ, "DJANGO_SETTINGS_MODULE": "garage.settings", "DATA_DIR": str(folder)}
    if connection.vendor == "sqlite":
        shutil.copy(tables, folder / "garage.sqlite3")
        return env | {"DATABASE_URL": "sqlite:///"}
    row = {name: connection.settings_dict[name] for name in ("USER", "PASSWORD", "HOST", "PORT")}
    at = f"{row['USER']}:{row['PASSWORD']}@{row['HOST']}:{row['PORT']}"
    return env | {"DATABASE_URL": f"postgres://{at}/{connection.settings_dict['NAME']}"}


def race(folder, tables):
    ran = subprocess.run(  # noqa: S603 (our own interpreter, our own module)
        [sys.executable, "-m", "tests.parts.race", str(ROUNDS), str(2 * ROUNDS)],
        cwd=ROOT, env=where(folder, tables), capture_output=True, text=True, timeout=300, check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr[-2000:]
    return json.loads(ran.stdout.splitlines()[-1])


def as_many_as_there_were(found, tries):
    assert sum(found["got"].values()) == tries
    assert found["got"]["fitted"] == found["on_car"] == found["there"]
    losers = {said for said in found["got"] if said != "fitted"}
    assert losers and all(LOSER.fullmatch(said) for said in losers), losers
    assert found["faults"] == 0


@pytest.fixture
def folder(tmp_path):
    """In memory where there is such a folder: the race is for parts, not for the disk."""
    memory = Path("/dev/shm")  # noqa: S108 (a folder of our own in it, gone with the test)
    if not memory.is_dir():
        yield tmp_path
        return
    with tempfile.TemporaryDirectory(dir=memory) as made:
        yield Path(made)


@pytest.mark.django_db(transaction=True)
def test_sixteen_threads_and_eight_processes_for_the_last_part(folder, tables):
    found = race(folder, tables)
    for how in ("threads", "processes"):
        as_many_as_there_were(found[how], ROUNDS * 16)
    assert (found["threads"]["taps"], found["threads"]["pulled"]) == ({"303": 16}, 1)
    twins = {"Bin 7": 1, "refused: There is a Bin 7 already.": 15}
    assert found["threads"]["places"] == twins

"""Sixteen at once for the last part: as many fitted as there were, every loser told why."""

import json
import os
import re
import subprocess
import sys

import pytest
from django.db import connection

from tests.house.places import ROOT

ROUNDS = int(os.environ.get("RACE_ROUNDS", "19"))  # of sixteen tries each
LOSER = re.compile(r"refused: Shelf A has none of Hub nut left, not 1\.")


def where(tmp_path):
    """The environment of the race: a file of its own, or the tests' own PostgreSQL database."""
    env = {**os.environ, "DJANGO_SETTINGS_MODULE": "garage.settings", "DATA_DIR": str(tmp_path)}
    if connection.vendor == "sqlite":
        return env | {"DATABASE_URL": "sqlite:///"}
    row = {name: connection.settings_dict[name] for name in ("USER", "PASSWORD", "HOST", "PORT")}
    at = f"{row['USER']}:{row['PASSWORD']}@{row['HOST']}:{row['PORT']}"
    return env | {"DATABASE_URL": f"postgres://{at}/{connection.settings_dict['NAME']}"}


@pytest.mark.django_db(transaction=True)
def test_sixteen_at_once_for_the_last_part(tmp_path):
    ran = subprocess.run(  # noqa: S603 (our own interpreter, our own module)
        [sys.executable, "-m", "tests.parts.race", str(ROUNDS)],
        cwd=ROOT, env=where(tmp_path), capture_output=True, text=True, timeout=300, check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr[-2000:]
    found = json.loads(ran.stdout.splitlines()[-1])
    assert sum(found["got"].values()) == ROUNDS * 16
    assert found["fitted"] == found["on_car"] == found["there"]
    losers = {said: number for said, number in found["got"].items() if said != "fitted"}
    assert sum(losers.values()) == ROUNDS * 16 - found["there"]
    assert all(LOSER.fullmatch(said) for said in losers), losers
    assert (found["taps"], found["pulled"], found["faults"]) == ({"303": 16}, 1, 0)

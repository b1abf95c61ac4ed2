"""A SQLite file with all tables and nothing in them, made once a run: the migrations take a quarter of a minute."""

import fcntl
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

from tests.house.places import ROOT


def made_once(folder: Path) -> Path:
    """In a folder that several processes share; those that come later wait for the first."""
    file = folder / "tables.sqlite3"
    with (folder / "tables.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not file.exists():
            _migrate(folder / "tables", file)
    return file


def _migrate(own: Path, file: Path) -> None:
    own.mkdir()
    env = {**os.environ, "DATABASE_URL": "sqlite:///", "DATA_DIR": str(own)}
    subprocess.run([sys.executable, "manage.py", "migrate", "--verbosity", "0"], cwd=ROOT, env=env, check=True)
    with closing(sqlite3.connect(own / "garage.sqlite3")) as made:
        made.execute("VACUUM INTO ?", [str(file)])

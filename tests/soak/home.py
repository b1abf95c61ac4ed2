"""A place of the soak's own: a folder, and on PostgreSQL a database made for it and dropped after it."""

import json
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit, urlunsplit

from tests.house.places import ROOT

# Nothing of whoever starts the soak comes along: his folder, his mail, his settings.
TAKEN = ("PATH", "HOME", "LANG", "LC_ALL", "VIRTUAL_ENV", "PYTHONDONTWRITEBYTECODE")


class Home:
    """`database` is the address of a PostgreSQL database, or empty."""

    def __init__(self, folder: Path, database: str) -> None:
        self.folder, self.database = folder, database
        self.env = {name: os.environ[name] for name in TAKEN if name in os.environ} | {
            "DATA_DIR": str(folder),
            "DJANGO_SETTINGS_MODULE": "tests.soak.settings",
            "BACKUP_DAILY": "off",
            "LOG_FILE": str(folder / "garage.log"),
            "TMPDIR": str(folder / "tmp"),
        }
        (folder / "tmp").mkdir()
        if database:
            self.env["DATABASE_URL"] = database

    @property
    def kind(self) -> str:
        return "PostgreSQL" if self.database else f"SQLite {sqlite3.sqlite_version}"

    def run(self, *words: str, sent: str = "") -> str:
        """One of our own commands, in a process of its own."""
        ran = subprocess.run(  # noqa: S603 (our own interpreter, our own words)
            [sys.executable, *words], cwd=ROOT, env=self.env, input=sent, capture_output=True, text=True, check=False
        )
        if ran.returncode:
            raise RuntimeError(f"{' '.join(words)} failed:\n{ran.stderr[-3000:]}")
        return ran.stdout

    def filled(self, writers: int) -> dict[str, Any]:
        """As `make run` does it, and the people who write."""
        self.run("manage.py", "migrate", "--verbosity", "0")
        self.run("manage.py", "collectstatic", "--no-input", "--verbosity", "0")
        return self.seeded(writers)

    def seeded(self, writers: int) -> dict[str, Any]:
        seeded = json.loads(self.run("-m", "tests.soak.seed", str(writers)))
        self.run("manage.py", "plan")
        return seeded


@contextmanager
def home(database: str = "", *, like: str = "template1", keep: bool = False) -> Iterator[Home]:
    """`database` is the address of any database of a server that lets us make one beside it, `like` another."""
    folder = Path(tempfile.mkdtemp(prefix="witness-soak-"))
    name = f"witness_soak_{uuid.uuid4().hex[:8]}"
    if database:
        _tell(database, f'CREATE DATABASE "{name}" TEMPLATE "{like}"')
    own = urlunsplit(urlsplit(database)._replace(path=f"/{name}")) if database else ""
    try:
        yield Home(folder, own)
    finally:
        if database and not keep:
            _tell(database, f'DROP DATABASE IF EXISTS "{name}" WITH (FORCE)')
        if keep:
            print(f"Left in {folder}{f', database {name}' if database else ''}.")
        else:
            shutil.rmtree(folder, ignore_errors=True)


def _tell(database: str, sentence: str) -> None:
    import psycopg

    with psycopg.connect(database, autocommit=True) as asked:
        asked.execute(sentence)

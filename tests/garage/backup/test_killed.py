"""Killed at any moment of a restore, the old garage stands as it was, or the new one does."""

import multiprocessing
import os
import shutil
import signal
from contextlib import suppress

import pytest
from django.db import connections

from garage import photo_files, sqlite_place
from garage.actions import refill
from tests.garage.backup.homes import Home, garage_tables, pictures, run

FORK = multiprocessing.get_context("fork")


def die(*args, **kwargs):
    os.kill(os.getpid(), signal.SIGKILL)


def restore(backed_up, module, name, calls):
    """In a process of its own, which kills itself when it comes to this function for the so-many-th time."""
    real, left = getattr(module, name), [calls]

    def counted(*args, **kwargs):
        left[0] -= 1
        return real(*args, **kwargs) if left[0] else die()

    setattr(module, name, counted)
    with suppress(Exception):
        run("restore", backed_up, replace=True)


@pytest.mark.parametrize(
    ("module", "name", "calls"),
    [(refill, "load", 30), (refill, "_prove", 1), (photo_files, "put", 3), (sqlite_place, "_take_place", 1)],
    ids=lambda value: getattr(value, "__name__", str(value)),
)
def test_the_old_garage_is_as_it_was(home, backed_up, quick, module, name, calls):
    for file in list(home.photos.rglob("*.jpg"))[:6]:
        file.unlink()
    before, shown = garage_tables(home.database), pictures(home.photos)
    connections.close_all()
    worker = FORK.Process(target=restore, args=(backed_up, module, name, calls))
    worker.start()
    worker.join()
    assert worker.exitcode == -signal.SIGKILL
    assert garage_tables(home.database) == before
    assert pictures(home.photos).items() >= shown.items()


def test_killed_right_after_the_rename_the_new_one_stands(home, original, backed_up, quick):
    run("check_ledger")
    connections.close_all()
    worker = FORK.Process(target=restore, args=(backed_up, shutil, "rmtree", 1))
    worker.start()
    worker.join()
    assert worker.exitcode == -signal.SIGKILL
    assert garage_tables(home.database) == garage_tables(original.database)
    kept = next(home.folder.glob("garage.sqlite3.before-*"))
    assert garage_tables(kept) == garage_tables(original.database)
    assert Home(home.folder).photos.exists()

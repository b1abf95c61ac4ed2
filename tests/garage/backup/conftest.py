"""A filled garage for each test, and a backup of it that is made once."""

import shutil

import pytest

from garage.actions import import_garage, restore
from garage.second_database import second_database
from tests.garage.backup.homes import Home, at_home, copied, filled, run
from tests.garage.backup.open_files import MINE, more_to_take_along


@pytest.fixture(scope="session")
def original(tmp_path_factory, django_db_blocker):
    """Never to be changed: tests copy it."""
    home = Home(tmp_path_factory.mktemp("backup") / "original")
    with django_db_blocker.unblock():
        filled(home)
    return home


@pytest.fixture(scope="session")
def bare(tables, tmp_path_factory):
    """A database with tables and nothing in them."""
    home = Home(tmp_path_factory.mktemp("bare"))
    shutil.copy(tables, home.database)
    return home


@pytest.fixture(scope="session")
def backed_up(original, tmp_path_factory, django_db_blocker):
    file = tmp_path_factory.mktemp("backup") / "garage.zip"
    with django_db_blocker.unblock(), at_home(original):
        run("backup", file)
    return file


@pytest.fixture
def home(original, tmp_path, django_db_blocker):
    """A garage of the test's own, in which it stands."""
    with django_db_blocker.unblock(), at_home(copied(original, tmp_path / "home")) as own:
        yield own


@pytest.fixture
def elsewhere(tmp_path, django_db_blocker):
    """A place without anything, in which the test stands."""
    with django_db_blocker.unblock(), at_home(Home(tmp_path / "elsewhere")) as own:
        yield own


@pytest.fixture
def quick(bare, monkeypatch):
    """Restoring finds the tables made already, which takes it most of its time; all else it does itself."""

    def with_tables(alias, file):
        shutil.copy(bare.database, file)
        return second_database(alias, file)

    monkeypatch.setattr(restore, "second_database", with_tables)


@pytest.fixture(scope="session")
def two(original, tmp_path_factory, django_db_blocker):
    """The garage with links and lists that name rows by number, and another garage beside it; never to be changed."""
    with django_db_blocker.unblock(), at_home(copied(original, tmp_path_factory.mktemp("open") / "two")) as home:
        more_to_take_along(home)
    return home


@pytest.fixture
def here(two, tmp_path, django_db_blocker):
    """A copy of both, in which the test stands."""
    with django_db_blocker.unblock(), at_home(copied(two, tmp_path / "here")) as home:
        yield home


@pytest.fixture(scope="session")
def open_file(two, tmp_path_factory, django_db_blocker):
    file = tmp_path_factory.mktemp("open") / "open.zip"
    with django_db_blocker.unblock(), at_home(two):
        run("export_garage", MINE, file=file)
    return file


@pytest.fixture
def quick_import(bare, monkeypatch):
    """The database in which open files are looked through has its tables already."""

    def with_tables(alias, file):
        shutil.copy(bare.database, file)
        return second_database(alias, file)

    monkeypatch.setattr(import_garage, "second_database", with_tables)

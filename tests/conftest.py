"""The cast of every test, and a client that draws the key of each write as a page would."""

import gc
import importlib.util
import logging
import os
import sqlite3
import time
import uuid
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, fields
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from django.conf import settings as django_settings
from django.db import OperationalError, connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext, override_settings

from garage.models import Garage, Membership
from tests import factories
from tests.held import Watch
from tests.tables import made_once

pytest_plugins = ["tests.plain", "tests.asked"]
# Folders whose tests ask about whole pages, with what is round them.
WALKED = {"browser", "cars", "season"}

# What `requirements.txt` alone cannot run; with STRICT_TESTS=1 (as in CI) nothing may be missing.
NEEDS = {"property": "hypothesis", "browser": "playwright", "paper": "pypdf"}
collect_ignore_glob = []
for folder, module in NEEDS.items():
    if importlib.util.find_spec(module) is None:
        if os.environ.get("STRICT_TESTS"):
            raise pytest.UsageError(f"{module} is not installed: see tests/requirements.txt")
        collect_ignore_glob.append(f"{folder}/*")

# The same cases everywhere and each time; `make hunt` tries others, HUNT times as many, and keeps what it finds.
if importlib.util.find_spec("hypothesis"):
    from hypothesis import HealthCheck, settings

    patient = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
    settings.register_profile("same", patient, derandomize=True, database=None)
    # Said outright: where CI is set, hypothesis would draw the same cases in a hunt as well.
    many = 100 * int(os.environ.get("HUNT", "1"))
    settings.register_profile("hunt", patient, derandomize=False, max_examples=many, print_blob=True)
    settings.load_profile("same")


LONG = (
    *("tests/season/", "tests/browser/", "tests/property/", "tests/soak/"),
    *("tests/parts/test_race", "tests/house/test_queries", "tests/builds/odds/test_judge"),
)


def pytest_collection_modifyitems(items):
    """What takes long is begun first, so that at the end no core waits for another."""
    items.sort(key=lambda item: not item.nodeid.startswith(LONG))


def pytest_collection_finish():
    """What is there by now stays: the collector goes through the rest, and less often. A tenth of the whole run."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 100)


@pytest.fixture(scope="session")
def tables(request, tmp_path_factory) -> Path:
    """A SQLite file with all tables and nothing in them, the same for all workers: it is copied."""
    own = tmp_path_factory.getbasetemp()
    return made_once(own.parent if hasattr(request.config, "workerinput") else own)


@pytest.fixture(scope="session")
def django_db_modify_db_settings(request, django_db_modify_db_settings_parallel_suffix, django_db_use_migrations):
    """The tests' own SQLite, which is in memory for as long as somebody is connected, begins with those tables."""
    if connection.vendor != "sqlite" or not django_db_use_migrations:
        yield
        return
    with closing(sqlite3.connect(connection.creation._get_test_db_name(), uri=True)) as memory:
        with closing(sqlite3.connect(request.getfixturevalue("tables"))) as file:
            file.backup(memory)
        yield


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup):
    """Tests that commit are swept afterwards, which the ledger's own guards refuse elsewhere."""
    # On the class: every thread that a browser or a race brings has a connection of its own.
    ops = type(connection.ops)
    flush = ops.execute_sql_flush

    def sweep(self, statements):
        before, after = _guards_off_and_on(self.connection)
        # What a browser asked for last may still be read while it is swept: then once more.
        for left in (2, 1, 0):
            try:
                return flush(self, [*before, *statements, *after])
            except OperationalError:
                if not left:
                    raise
                time.sleep(1)
        return None

    ops.execute_sql_flush = sweep


def _guards_off_and_on(database) -> tuple[list[str], list[str]]:
    if database.vendor == "postgresql":
        trigger = "ALTER TABLE parts_move {} TRIGGER parts_move_stays_whole"
        return [trigger.format("DISABLE")], [trigger.format("ENABLE")]
    with database.cursor() as cursor:
        cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
        rows = cursor.fetchall()
    return [f"DROP TRIGGER {name}" for name, _ in rows], [made for _, made in rows]


@pytest.fixture(scope="session", autouse=True)
def settings_of_tests(tmp_path_factory):
    storage = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
    with override_settings(
        PHOTO_DIR=tmp_path_factory.mktemp("photos"),
        REQUEST_COUNTS_DIR=tmp_path_factory.mktemp("requests"),
        STORAGES={**django_settings.STORAGES, "staticfiles": storage},
        PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"],
        PLAN_IN_BACKGROUND=False,
        MOST_A_MINUTE={"saves": 0, "searches": 0, "uploads": 0},  # every test's first person has the same number
        REMEMBERS=False,  # tests write rows past the pages, which nobody counts
    ):
        yield


@pytest.fixture(scope="session")
def watch() -> Watch:
    watch = Watch()
    watch.arm()
    return watch


@pytest.fixture(autouse=True)
def nothing_slow_while_others_wait(watch):
    """Whatever any test sends: between the begin of a write and its commit nothing slow is done."""
    watch.told.clear()
    yield
    assert watch.told == []


@pytest.fixture(autouse=True)
def board_where_it_is_asked_about(request, monkeypatch):
    """Round each page stands the board: the verdict on every car, a fifth of the time of all tests of pages.

    It is drawn where a test is marked `board`, and in the folders that ask about whole pages.
    """
    marks = {mark.name for mark in request.node.iter_markers()}
    if "plain" not in marks and "board" not in marks and not WALKED.intersection(request.path.parts):
        monkeypatch.setattr("builds.cars.context._cards", lambda member: [])


@contextmanager
def rows_kept(blocker) -> Iterator[None]:
    """For rows that are dear to make: once, at the cast's moment, around all tests that share them, and taken back."""
    with pytest.MonkeyPatch.context() as patch, blocker.unblock(), transaction.atomic():
        patch.setattr("garage.clock.now", lambda: factories.NOW)
        yield
        transaction.set_rollback(True)


@pytest.fixture(scope="module")
def rows_of_module(django_db_setup, django_db_blocker):
    with rows_kept(django_db_blocker):
        yield


@pytest.fixture
def now(monkeypatch) -> datetime:
    """The project's clock stands at Tuesday 2 March 2027, 17:00 UTC."""
    monkeypatch.setattr("garage.clock.now", lambda: factories.NOW)
    return factories.NOW


class Hand:
    """The hand of the project's clock; tests move it."""

    at = factories.NOW

    def forward(self, **by: float) -> None:
        self.at += timedelta(**by)


@pytest.fixture
def clock(monkeypatch) -> Hand:
    """As `now`, and it can be moved forward."""
    hand = Hand()
    monkeypatch.setattr("garage.clock.now", lambda: hand.at)
    return hand


@pytest.fixture
def lines() -> Iterator[list[str]]:
    """What the security log says, line by line."""
    found: list[str] = []
    handler = logging.Handler()
    handler.emit = lambda record: found.append(handler.format(record))
    logger = logging.getLogger("garage.security")
    logger.addHandler(handler)
    yield found
    logger.removeHandler(handler)


class Browserless(Client):
    """`press` sends a form with a fresh key and with what it was drawn with, as the page that drew it would."""

    def press(self, path, data=None, **more):
        sent = {"key": str(uuid.uuid4()), **(data or {})}
        answer = self.post(path, sent, **more)
        form = answer.context.get("form") if answer.status_code == 422 and answer.context else None
        if "drawn" not in sent and getattr(form, "came_without", False):
            answer = self.post(path, {**sent, "drawn": form.drawn}, **more)
        return answer


def signed_in(member: Membership | None) -> Browserless:
    client = Browserless()
    if member is not None:
        client.force_login(member.person)
    return client


@dataclass
class Cast:
    """Owner, helper and viewer of one garage; a stranger who owns another; nobody."""

    garage: Garage
    owner: Membership
    helper: Membership
    viewer: Membership
    stranger: Membership

    def client(self, who: str) -> Browserless:
        return signed_in(getattr(self, who) if who != "nobody" else None)

    def again(self) -> "Cast":
        """Read anew, for rows that several tests share."""
        kept = {field.name: getattr(self, field.name) for field in fields(self)}
        return Cast(**{name: type(row).objects.get(pk=row.pk) for name, row in kept.items()})


def make_cast() -> Cast:
    garage = factories.GarageFactory(name="Quayside Lock-up")
    roles = {
        role: factories.MembershipFactory(garage=garage, role=role, person__name=name)
        for role, name in [("owner", "Ines"), ("helper", "Tove"), ("viewer", "Priya")]
    }
    stranger = factories.MembershipFactory(role="owner", person__name="Stranger")
    return Cast(garage=garage, stranger=stranger, **roles)


@pytest.fixture
def cast(db) -> Cast:
    return make_cast()


@pytest.fixture
def owner(cast) -> Browserless:
    return cast.client("owner")


@pytest.fixture
def helper(cast) -> Browserless:
    return cast.client("helper")


@pytest.fixture
def viewer(cast) -> Browserless:
    return cast.client("viewer")


@pytest.fixture
def stranger(cast) -> Browserless:
    return cast.client("stranger")


def queries(client: Browserless, path: str) -> int:
    """How many queries a page takes, once the session is as it will stay."""
    assert client.get(path).status_code == 200
    with CaptureQueriesContext(connection) as found:
        client.get(path)
    return len(found)

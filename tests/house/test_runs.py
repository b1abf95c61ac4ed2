"""What a run of the tests promises: the same cases each time, and no database behind what is called plain."""

import json
import os
import re
import subprocess
import sys
from collections import Counter
from types import SimpleNamespace

import pytest

from tests import asked
from tests.house.places import ROOT

ASKING = """
import pytest
from django.test import SimpleTestCase, TestCase

def test_plain(): pass
def test_plain_with_fixtures(tmp_path, client, settings, rf): pass
class TestPlain:
    def test_plain_method(self): pass
class TestPlainOfDjango(SimpleTestCase):
    def test_plain_of_django(self): pass

@pytest.fixture
def rows(db): pass
@pytest.fixture
def rows_of_rows(rows): pass

def test_named(db): pass
def test_named_by_a_fixture(rows_of_rows): pass
def test_named_by_the_cast(owner): pass
def test_named_for_good(transactional_db): pass
def test_named_server(live_server): pass
def test_named_admin(admin_client): pass
@pytest.mark.django_db
def test_marked(): pass
@pytest.mark.usefixtures("rows")
def test_used(): pass
class TestMarked:
    pytestmark = pytest.mark.django_db
    def test_marked_method(self): pass
class TestOfDjango(TestCase):
    def test_of_django(self): pass
"""

REACHING = """
import subprocess, sys
import pytest

def test_plain(): pass
def test_asks_as_it_runs(request): request.getfixturevalue("db")
def test_reads(): from garage.models import Garage; Garage.objects.count()
def test_reads_in_a_process_of_its_own():
    subprocess.run([sys.executable, "manage.py", "check", "--database", "default"], check=True)
"""

DRAWING = """
from hypothesis import given, strategies as st
from tests.property.tries import tries

drawn = []

@given(st.integers())
@tries(10)
def test_draws(number): drawn.append(number)
def test_shows(): print("DRAWN", *drawn)

@given(st.integers())
def test_fails(number): assert number < 1000
"""
ASKED = """
import pytest
from django.db import DatabaseError, transaction
from garage.models import Garage

def asks(*numbers): return list(Garage.objects.filter(pk__in=numbers))
@pytest.fixture(scope="module")
def shared(rows_of_module): Garage.objects.create(name="Shared")

def test_asks_one_thing(db): asks(1)
def test_asks_the_same_of_two(db): asks(1, 2)
def test_asks_it_once_more(db): asks(1, 2, 3)
def test_asks_it_and_another(db): asks(1) or Garage.objects.count()
def test_asks_with_a_number_of_eight_bytes(db): asks(2**40)
def test_locks_what_it_asks(db): list(Garage.objects.select_for_update().filter(pk__in=[1]))
def test_is_refused(db):
    with pytest.raises(DatabaseError), transaction.atomic(): Garage.objects.create(name=None)
def test_finds_what_is_shared(db, shared): pass
def test_is_skipped_there(db): pytest.skip(str(asks(1)))
def test_commits(transactional_db): asks(1)
def test_commits_as_marked(): asks(1)
test_commits_as_marked = pytest.mark.django_db(transaction=True)(test_commits_as_marked)
"""
HUNT = ("--hypothesis-profile", "hunt", "--hypothesis-seed")


@pytest.fixture
def run(tmp_path):
    """Runs the tests of a text with the hooks of ours, and returns what it said."""

    def run(text, *options, **env):
        (tmp_path / "conftest.py").write_text("from tests.conftest import *")
        (tmp_path / "test_it.py").write_text(text)
        words = ["-c", "pyproject.toml", "-p", "no:cacheprovider", "-p", "no:xdist", "-sv"]
        ran = subprocess.run(  # noqa: S603 (our own interpreter, our own words)
            [sys.executable, "-m", "pytest", *words, "--no-migrations", *options, str(tmp_path / "test_it.py")],
            cwd=ROOT, env={**os.environ, **env}, capture_output=True, text=True, check=False,
        )  # fmt: skip
        return ran.stdout + ran.stderr

    return run


def test_whatever_asks_for_a_database_is_not_plain(run):
    said = run(ASKING, "--collect-only", "-m", "plain")
    names = re.findall(r"<(?:TestCase)?Function (\w+)>", said)
    assert names and all(name.startswith("test_plain") for name in names), said
    assert f"{ASKING.count('test_plain')}/{ASKING.count('def test_')} tests collected" in said


def test_a_plain_test_reaches_no_database(run):
    said = run(REACHING, "-m", "plain")
    assert "3 failed, 1 passed" in said
    assert "This test asks for a database as it runs: let it name `db`" in said
    assert "Database access not allowed" in said
    assert "unable to open database file" in said


def test_properties_try_the_same_cases_each_time(run):
    said = [run(DRAWING) for _ in range(2)]
    assert len(_drawn(said[0])) == 10
    assert _drawn(said[0]) == _drawn(said[1])


def test_a_hunt_tries_more_cases_and_others_for_each_seed_and_prints_what_to_keep(run):
    said = [run(DRAWING, *HUNT, seed, HUNT="3") for seed in ("1", "2")]
    assert len(_drawn(said[0])) == 30
    assert _drawn(said[0]) != _drawn(said[1])
    assert "number=1000" in said[0]
    assert "@reproduce_failure" in said[0]


def _drawn(said):
    return re.search(r"DRAWN (.*)", said)[1].split()


def test_few_tests_ask_all_that_all_of_them_ask(run, tmp_path):
    """Twice each, with what locks or is refused; beside them what commits, what was skipped and what is new."""
    run(ASKED, f"--note-queries={tmp_path}/asked")
    said = run(f"{ASKED}\ndef test_is_new(db): pass", f"--queries-of={tmp_path}/asked")
    ran = set(re.findall(r"::test_(\w+) (?:PASSED|SKIPPED)", said))
    alone = {"asks_it_and_another", "asks_with_a_number_of_eight_bytes", "locks_what_it_asks", "is_refused"}
    alike = {"asks_one_thing", "asks_the_same_of_two", "asks_it_once_more"}
    assert ran - alike == alone | {"commits", "commits_as_marked", "is_skipped_there", "is_new"}, said
    assert len(ran & alike) == 1, said


@pytest.mark.parametrize(("enough", "few"), [(1, {"left", "right"}), (2, {"all", "left", "right"})])
def test_what_others_ask_all_of_is_needless(enough, few):
    asks = {"all": "abcd", "left": "abe", "right": "cdf"}
    assert asked.few({test: Counter(queries) for test, queries in asks.items()}, enough) == few


def test_a_file_that_tells_one_database_from_another_is_known():
    files = {file: asked.tells_databases_apart(ROOT / "tests" / file) for file in ("garage/test_health.py", "pages.py")}
    assert files == {"garage/test_health.py": True, "pages.py": False}


def test_a_file_that_asked_nothing_is_not_read_unless_it_tells_one_database_from_another(tmp_path):
    files = {
        "tests/parts": None,
        "tests/pages.py": {"a query": 1},
        "tests/pdf.py": {},
        "tests/garage/test_health.py": {},
    }
    noted = {f"{file}::test_it": queries for file, queries in files.items() if queries is not None}
    (tmp_path / "alone.json").write_text(json.dumps(noted))
    few, config = asked.Few(tmp_path), SimpleNamespace(rootpath=ROOT)
    assert [file for file in files if few.pytest_ignore_collect(ROOT / file, config)] == ["tests/pdf.py"]


def test_without_notes_no_test_is_left_out(tmp_path):
    with pytest.raises(pytest.UsageError, match="No queries were noted in"):
        asked.Few(tmp_path / "nowhere")

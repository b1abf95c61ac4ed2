"""What a run of the tests promises: the same cases each time, and no database behind what is called plain."""

import os
import re
import subprocess
import sys

import pytest

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
    assert len(_drawn(said[0])) == 5
    assert _drawn(said[0]) == _drawn(said[1])


def test_a_hunt_tries_more_cases_and_others_for_each_seed_and_prints_what_to_keep(run):
    said = [run(DRAWING, *HUNT, seed, HUNT="3") for seed in ("1", "2")]
    assert len(_drawn(said[0])) == 30
    assert _drawn(said[0]) != _drawn(said[1])
    assert "number=1000" in said[0]
    assert "@reproduce_failure" in said[0]


def _drawn(said):
    return re.search(r"DRAWN (.*)", said)[1].split()

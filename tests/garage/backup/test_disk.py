"""A disk that is full, or takes no writing, is said by that name, nothing is half saved, and health tells it."""

import sqlite3
from contextlib import closing
from types import SimpleNamespace

import pytest
from django.db import connections

from garage.engine.storage_faults import BUSY, FULL, READ_ONLY
from garage.models import Membership, Receipt, Skill
from garage.pages import health
from tests.conftest import signed_in
from tests.garage.test_people import text


@pytest.fixture
def member(home):
    """The owner of a garage in a file, whose answers to a fault are pages."""
    client = signed_in(Membership.objects.filter(role="owner").first())
    client.raise_request_exception = False
    return client


def before():
    return Skill.objects.count(), Receipt.objects.count()


def test_a_full_database_is_507_in_words_and_nothing_is_written(member, home):
    there = before()
    cursor = connections["default"].cursor()
    cursor.execute("PRAGMA page_count")
    cursor.execute(f"PRAGMA max_page_count={cursor.fetchone()[0]}")
    answers = [member.press("/skills/add/", {"name": f"brazing {'x' * 30} {one}"}) for one in range(300)]
    refused = [answer for answer in answers if answer.status_code != 303]
    assert refused and {answer.status_code for answer in refused} == {507}
    assert FULL.sentence in text(refused[0]) and "mark in the log" in text(refused[0])
    saved = len(answers) - len(refused)
    assert before() == (there[0] + saved, there[1] + saved)
    assert member.get("/people/").status_code == 200, "reading goes on"


def test_a_database_that_takes_no_writing_is_507_in_words(member, home):
    there = before()
    connections["default"].cursor().execute("PRAGMA query_only=ON")
    answer = member.press("/skills/add/", {"name": "brazing"})
    assert (answer.status_code, READ_ONLY.sentence in text(answer)) == (507, True)
    assert before() == there


def test_who_writes_for_too_long_is_503_in_words_to_others(member, home):
    there = before()
    connections["default"].cursor().execute("PRAGMA busy_timeout=50")
    with closing(sqlite3.connect(home.database, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        answer = member.press("/skills/add/", {"name": "brazing"})
        assert (answer.status_code, BUSY.sentence in text(answer)) == (503, True)
    assert before() == there
    assert member.press("/skills/add/", {"name": "brazing"}).status_code == 303, "a moment later it goes"


@pytest.mark.parametrize(("free", "said", "status"), [(50_000_000, "ok", 200), (49_999_999, "full", 503)])
def test_health_is_not_ok_without_room(client, db, monkeypatch, free, said, status):
    monkeypatch.setattr(health.shutil, "disk_usage", lambda place: SimpleNamespace(free=free))
    answer = client.get("/health/")
    assert (answer.json()["disk"], answer.status_code) == (said, status)


def test_health_is_not_ok_where_nothing_can_be_written(client, db, monkeypatch):
    monkeypatch.setattr(health.os, "access", lambda place, how: False)
    answer = client.get("/health/")
    assert (answer.json()["disk"], answer.status_code) == ("read only", 503)

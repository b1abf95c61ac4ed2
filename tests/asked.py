"""So that few tests ask PostgreSQL all that all of them ask a database.

A run with `--note-queries=FOLDER` notes which queries each test asks. One with `--queries-of=FOLDER` runs, of the tests
that were noted, so many that each of those queries is asked by ENOUGH of them (by all that ask it where those are
fewer), and beside them all that commit, all of a file that tells one database from another, and all that were not
noted: what is new, failed there or was skipped there.
"""

import heapq
import json
import os
import re
import threading
from collections import Counter, defaultdict
from functools import cache, wraps
from hashlib import sha256
from pathlib import Path

import pytest
from django.db.backends.signals import connection_created
from django.db.models.sql.compiler import SQLCompiler

ENOUGH = 2
ASKS = ("SELECT", "INSERT", "UPDATE", "DELETE", "WITH")
BEGIN = 20  # what a test takes beside its queries, in queries
COMMITS = {"transactional_db", "live_server"}
# How many values, rows or cases there are makes no other query.
ALIKE = (
    (re.compile(r"\(%s(?:, %s)*\)"), "(%s)"),
    (re.compile(r"\(%s\)(?:, \(%s\))+"), "(%s)"),
    (re.compile(r"(?:WHEN \([^()]*\) THEN \S+ ){2,}"), "WHEN … "),
    (re.compile(r"\b(LIMIT|OFFSET) \d+"), r"\1 n"),
)
HERE = threading.local()


def pytest_addoption(parser):
    parser.addoption("--note-queries", metavar="FOLDER", help="note there which queries each test asks")
    parser.addoption("--queries-of", metavar="FOLDER", help="few tests that ask all queries noted there")


def pytest_configure(config):
    if folder := config.getoption("--note-queries"):
        config.pluginmanager.register(Notes(Path(folder)))
    if folder := config.getoption("--queries-of"):
        config.pluginmanager.register(Few(Path(folder)))


def query_of(sql: str, locks: str = "") -> str:
    """What a database is asked, whatever the number of values; SQLite is not told what PostgreSQL locks."""
    for pattern, alike in ALIKE:
        sql = pattern.sub(alike, sql)
    return sql + locks


def kind_of(value: object) -> str:
    """A number that no column of four bytes has is one of its own."""
    return "long" if isinstance(value, int) and abs(value) >= 2**31 else type(value).__name__


def locks_of(query) -> str:
    told = query.select_for_update_of, query.select_for_update_nowait, query.select_for_update_skip_locked
    return f" FOR UPDATE {told}" if query.select_for_update else ""


def telling_locks(real):
    @wraps(real)
    def execute_sql(compiler, *args, **more):
        HERE.locks = locks_of(compiler.query)
        try:
            return real(compiler, *args, **more)
        finally:
            HERE.locks = ""

    return execute_sql


class Notes:
    """By test the queries that are asked; what the tests of a file share stands under the file."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.whose = folder, ""
        self.queries: dict[tuple, str] = {}
        self.asked: defaultdict[str, Counter[str]] = defaultdict(Counter)
        self.passed: set[str] = set()
        connection_created.connect(self.listen)
        SQLCompiler.execute_sql = telling_locks(SQLCompiler.execute_sql)

    def listen(self, connection, **more):
        if self.ask not in connection.execute_wrappers:
            connection.execute_wrappers.append(self.ask)

    def ask(self, execute, sql, params, many, context):
        """The same query answered with another fault is another one."""
        fault = ""
        try:
            return execute(sql, params, many, context)
        except Exception as error:
            fault = type(error).__name__
            raise
        finally:
            if self.whose and str(sql).startswith(ASKS):
                values = params[0] if many and params else params
                self.note(sql, frozenset(map(kind_of, values or ())), fault)

    def note(self, sql: str, kinds: frozenset[str], fault: str) -> None:
        key = sql, getattr(HERE, "locks", ""), kinds, fault
        if key not in self.queries:
            told = [query_of(sql, key[1]), *sorted(kinds), fault]
            self.queries[key] = sha256("\n".join(told).encode()).hexdigest()[:20]
        self.asked[self.whose][self.queries[key]] += 1

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item):
        self.whose = item.nodeid
        try:
            return (yield)
        finally:
            self.whose = ""

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_call(self, item):
        """What fails here, or is skipped as it runs, is not noted."""
        result = yield
        self.passed.add(item.nodeid)
        return result

    @pytest.hookimpl(wrapper=True)
    def pytest_fixture_setup(self, fixturedef):
        before = self.whose
        if fixturedef.scope != "function":  # tables themselves are made for all tests, and are nobody's
            self.whose = "" if fixturedef.scope == "session" else _file(before)
        try:
            return (yield)
        finally:
            self.whose = before

    def pytest_sessionfinish(self):
        asked = {whose: self.asked[whose] for whose in self.passed | {_file(test) for test in self.passed}}
        if asked:
            self.folder.mkdir(parents=True, exist_ok=True)
            file = self.folder / f"{os.environ.get('PYTEST_XDIST_WORKER', 'alone')}.json"
            file.write_text(json.dumps(asked))


class Few:
    """Runs as few tests as ask all that was noted."""

    def __init__(self, folder: Path) -> None:
        self.asked: defaultdict[str, Counter[str]] = defaultdict(Counter)
        for file in sorted(folder.glob("*.json")):
            for whose, queries in json.loads(file.read_text()).items():
                self.asked[whose] += Counter(queries)
        if not self.asked:
            raise pytest.UsageError(f"No queries were noted in {folder}: run with --note-queries first.")
        noted = {_file(test): False for test in self.asked}
        noted |= {_file(test): True for test, queries in self.asked.items() if queries}
        self.asked_nothing = {file for file, asks in noted.items() if not asks}

    def pytest_ignore_collect(self, collection_path, config):
        """A file whose tests asked nothing is not even read: that takes longer than one thinks."""
        file = str(collection_path).removeprefix(f"{config.rootpath}/")
        return True if file in self.asked_nothing and not tells_databases_apart(collection_path) else None

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items, config):
        noted = {
            item.nodeid: self.asked[item.nodeid] + self.asked[_file(item.nodeid)]
            for item in items
            if item.nodeid in self.asked and not commits(item) and not tells_databases_apart(item.path)
        }
        left = noted.keys() - few(noted)
        config.hook.pytest_deselected(items=[item for item in items if item.nodeid in left])
        items[:] = [item for item in items if item.nodeid not in left]


def few(asked: dict[str, Counter[str]], enough: int = ENOUGH) -> set[str]:
    """Tests that ask each query, `enough` of them where so many do: ever the one that asks most for what it takes.

    Whatever those that came after it have made needless is left out again, the longest first.
    """
    times = Counter(query for queries in asked.values() for query in queries)
    wanted = {query: min(enough, many) for query, many in times.items()}

    def worth(test: str) -> float:
        queries = asked[test]
        return sum(wanted[query] > 0 for query in queries) / (BEGIN + queries.total())

    taken: set[str] = set()
    heap = [(-worth(test), test) for test in sorted(asked)]
    heapq.heapify(heap)
    while heap:
        was, test = heapq.heappop(heap)
        now = worth(test)
        if now and now == -was:
            taken.add(test)
            for query in asked[test]:
                wanted[query] -= 1
        elif now:
            heapq.heappush(heap, (-now, test))
    for test in sorted(taken, key=lambda test: (-asked[test].total(), test)):
        if all(wanted[query] < 0 for query in asked[test]):
            taken.remove(test)
            for query in asked[test]:
                wanted[query] += 1
    return taken


def _file(test: str) -> str:
    return test.partition("::")[0]


def commits(item: pytest.Item) -> bool:
    marked = any(mark.kwargs.get("transaction") for mark in item.iter_markers("django_db"))
    return marked or bool(COMMITS.intersection(item.fixturenames))


@cache
def tells_databases_apart(file: Path) -> bool:
    return "connection.vendor" in file.read_text()

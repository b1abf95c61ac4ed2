"""Which tests know no database: one run of these serves SQLite and PostgreSQL alike.

They are told by what they ask for, and held to it: a plain test that asks for a database while it runs fails, and
the processes it starts find none.
"""

import pytest

# What asks for rows has one of these among the fixtures that it names, or that they name in turn.
DATABASE = {"django_db_setup", "db", "transactional_db", "live_server"}
# The fixture of pytest-django through which every test gets its rows, asked for by name, by mark or on the way.
DOOR = "_django_db_helper"
NOWHERE = "sqlite:////no/such/folder/garage.sqlite3"


def is_plain(item: pytest.Item) -> bool:
    named = DATABASE.intersection(item.fixturenames)
    of_django = getattr(item.cls, "databases", None)
    return not (named or of_django or item.get_closest_marker("django_db"))


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    for item in items:
        if is_plain(item):
            item.add_marker("plain")


@pytest.fixture(autouse=True)
def no_database_beside_plain_tests(request, monkeypatch):
    if request.node.get_closest_marker("plain"):
        monkeypatch.setenv("DATABASE_URL", NOWHERE)


def pytest_fixture_setup(fixturedef, request):
    if fixturedef.argname == DOOR and request.node.get_closest_marker("plain"):
        pytest.fail("This test asks for a database as it runs: let it name `db`, or mark it `django_db`.", False)

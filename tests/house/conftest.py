"""A garage with one row of everything, for the tests that walk every address."""

from contextlib import nullcontext

import pytest

from garage.actions import export_garage, person_data
from tests.conftest import make_cast
from tests.house.every_address import make_rows


@pytest.fixture(scope="module")
def everything(rows_of_module):
    """The cast, and one row of everything in its garage."""
    cast = make_cast()
    return cast, make_rows(cast)


@pytest.fixture(autouse=True)
def seen_from_here(monkeypatch):
    """Files that are taken along are read where these tests stand: their rows are never committed."""
    for reader in (export_garage, person_data):
        monkeypatch.setattr(reader, "still", lambda at: nullcontext("default"))


@pytest.fixture
def cast(everything, db):
    return everything[0]


@pytest.fixture
def rows(everything, db):
    return everything[1]


@pytest.fixture
def part_by_part(cast):
    """Clients that ask as a tap does, for the main part of a page alone: what is round it is the same for all.

    What is round it, the board of all cars, takes two thirds of the time of a page that remembers nothing.
    """

    def client(who):
        asking = cast.client(who)
        if who != "nobody":  # who is sent to the door, with the whole of it
            asking.defaults["HTTP_HX_REQUEST"] = "true"
        return asking

    return client

"""A garage with one row of everything, for the tests that walk every address."""

import pytest

from tests.conftest import make_cast
from tests.house.every_address import make_rows


@pytest.fixture(scope="module")
def everything(rows_of_module):
    """The cast, and one row of everything in its garage."""
    cast = make_cast()
    return cast, make_rows(cast)


@pytest.fixture
def cast(everything, db):
    return everything[0]


@pytest.fixture
def rows(everything, db):
    return everything[1]

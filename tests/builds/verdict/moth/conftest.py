"""Of the car that is fit: whose garage it is in, its entry, and the car; made once for the tests of this folder."""

import pytest

from tests.builds.verdict.moth_kit import fit_moth
from tests.conftest import make_cast, rows_kept


@pytest.fixture(scope="package")
def kept_moth(django_db_setup, django_db_blocker):
    """None of these tests commits: each finds the rows as they were made."""
    with rows_kept(django_db_blocker):
        cast = make_cast()
        yield cast, fit_moth(cast).pk


@pytest.fixture
def cast(moth):
    return moth[0]


@pytest.fixture
def entry(moth):
    return moth[1]


@pytest.fixture
def car(entry):
    return entry.vehicle

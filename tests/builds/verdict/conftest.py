"""The car that is fit, made once for all the tests of a module that bring it out of that."""

import pytest

from garage.models import Entry
from tests.builds.verdict.moth_kit import fit_moth
from tests.conftest import Cast, make_cast


@pytest.fixture(scope="module")
def kept_moth(rows_of_module) -> tuple[Cast, int]:
    cast = make_cast()
    return cast, fit_moth(cast).pk


@pytest.fixture
def moth(kept_moth, db) -> tuple[Cast, Entry]:
    """Its cast and its entry, read anew."""
    cast, entry = kept_moth
    return cast.again(), Entry.objects.get(pk=entry)
